#pragma once

#include "measure/parsed.h"
#include "measure/shape.h"

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

} // namespace leafwright::impose
