#pragma once

#include "guide/figure/drawing.h"
#include "measure/parsed.h"
#include "measure/shape.h"
#include "text/fonts.h"

#include <span>
#include <string>
#include <string_view>
#include <vector>

// Pages of one PDF set down on the pages of another.

namespace leafwright::impose {

struct PlacedPage {
  int page = 0;       // of the PDF that is set down
  Point at;           // where the top left corner of its trimmed page comes to lie, y down
  double scale = 1.0; // 1 = as large as it is
  Rect clip;          // on the sheet; nothing of the page shows beyond it
};

struct Sheet {
  Size size;
  std::vector<PlacedPage> pages;
  bool turned = false; // all of it, by half a turn
};

// `under` has one page per sheet, with the marks that are printed over the pages; its catalogue and
// metadata are kept. The pages become form XObjects (ISO 32000-1, 8.10): each is stored once, as
// vectors. Links and structure do not come along, since both belong to pages that no longer are.
// `duplex` is what the print dialog begins with (12.2): "Simplex", "DuplexFlipShortEdge",
// "DuplexFlipLongEdge".
Parsed<std::string> composed(const std::string& under, const std::string& pages,
                             std::span<const Sheet> sheets, std::string_view duplex);

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
