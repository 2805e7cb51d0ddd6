#pragma once

#include "guide/figure/drawing.h"
#include "measure/parsed.h"
#include "model/project.h"
#include "page/laid.h"
#include "text/fonts.h"

#include <span>
#include <string>

// The display list by cairo, for previews. The same list looks the same in the PDF.

namespace leafwright::preview {

struct PngOptions {
  int width_px = 800;       // the height follows
  bool transparent = false; // else on `paper`
  Colour paper{255, 255, 255};
};

// The file's bytes, the same for the same input, with the drawing's real size noted in it so that
// it prints at 100 %. Pictures that cannot be read and sizes no picture can have are misreads.
Parsed<std::string> render_png(const Drawing& drawing, const text::Fonts& fonts,
                               std::span<const Picture> pictures, const PngOptions& options = {});
Parsed<std::string> render_png(const page::LaidPage& page, const text::Fonts& fonts,
                               std::span<const Picture> pictures, const PngOptions& options = {});

// The width for so many dots to the inch, to the nearest pixel, at least 1.
int width_at(Length width, int dots_per_inch);

} // namespace leafwright::preview
