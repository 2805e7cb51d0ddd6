#pragma once

#include "guide/figure/drawing.h"
#include "measure/length.h"
#include "text/fonts.h"

#include <string_view>
#include <vector>

// What is printed for whoever folds, staples and trims.

namespace leafwright::impose {

Path outline(Rect box);
// A hairline over a wider white one, so that it shows on any ground.
void add_line(std::vector<DrawItem>& to, Point from, Point end, std::vector<Length> dash = {});
// Short dashed lines at both ends of the fold, which runs from top to bottom at `x`.
void add_fold(std::vector<DrawItem>& to, Length x, Length top, Length bottom);
// Two staples on the fold, a quarter from either end, as long as they are.
void add_staples(std::vector<DrawItem>& to, Length x, Length top, Length bottom);
// Lines at the corners of `trimmed`, outside it, as far as `sheet` has room for them.
void add_crop_marks(std::vector<DrawItem>& to, Rect trimmed, Rect sheet);
// A bar on the back of a signature, each lower than the one before: gathered in order they make a
// stair.
void add_gathering_mark(std::vector<DrawItem>& to, Length x, Length top, Length bottom,
                        int signature);
// Small words, centred on `x`.
void add_words(std::vector<DrawItem>& to, const text::Fonts& fonts, std::string_view words,
               Length x, Length baseline);

} // namespace leafwright::impose
