#pragma once

#include "guide/block.h"
#include "page/context.h"

#include <span>
#include <vector>

namespace leafwright::page {

// Where each card lies on the cover: overlapping a little, slightly turned, in the order they are
// laid down (later ones lie on top).
struct LaidCard {
  std::size_t card = 0;
  Point centre;
  Angle turned;
};
struct CoverArrangement {
  double scale = 1.0; // printed : real
  std::vector<LaidCard> cards;
};
// Arranges cards of these real sizes within `region`, as large as they go up to `largest`. No card
// hides another's middle.
CoverArrangement arrange_cover(std::span<const Size> cards, Rect region, double largest);

// The whole cover page, relative to the page's corner; `area` is the text area on it.
FramePtr cover_frame(const guide::Cover& cover, Size page, Rect area, Context& context);

} // namespace leafwright::page
