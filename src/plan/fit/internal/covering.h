#pragma once

#include "plan/fit/internal/case.h"

#include <cstddef>
#include <vector>

// What lies over what, as the finished card is looked at.

namespace leafwright::fit {

// A piece in the order of making, where the view shows it best.
struct Seen {
  std::size_t piece = 0;
  View view = View::Front;
  Rect box;
};
std::vector<Seen> in_order(const Case& c);

// Whether `piece` lies, directly or not, on `carrier`.
bool rests_on(const Card& card, std::size_t piece, std::size_t carrier);

// Whether a window of `over` lies over any part of `below`; both boxes in one view.
bool shows_through(const Piece& over, Rect over_box, Rect below);

// Whether `over` hides all that lies under its box.
bool opaque(const Project& project, const Piece& over);

// Comparing every piece with every other is for cards, not for hostile files.
inline constexpr std::size_t most_compared = 400;

} // namespace leafwright::fit
