#pragma once

#include "model/project.h"
#include "page/laid.h"
#include "text/fonts.h"

#include <string>
#include <vector>

// A small document made by hand, of everything a page can hold, for the tests of this room.

namespace leafwright::sample {

const text::Fonts& fonts();

Path rectangle(Rect box);
// A picture of `width` x `height` pixels in four colours, its right half transparent if `alpha`.
std::string png_bytes(int width, int height, bool alpha);
std::string jpeg_bytes(int width, int height);
Picture png_picture(int width, int height, bool alpha);
Picture jpeg_picture(int width, int height);

TextRun run(std::string_view words, Point baseline, text::Role role = text::Role::Text,
            Length size = points(10));

// With every no-break space a hair wide, as the page room sets "4 1/4".
TextRun closed_up(TextRun run);

// Letter paper. Page 0: heading, paragraph with fractions and two links, table, list. Page 1:
// figure with a cut rectangle of 108 x 139.7 mm at (20 mm, 30 mm), dashes, opacity, clips, pictures
// 0 and 1.
page::Laid document();
std::vector<Picture> pictures();

} // namespace leafwright::sample
