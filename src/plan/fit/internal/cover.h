#pragma once

#include "measure/length.h"

#include <vector>

// The sum of rectangles' weights, all over the plane: where it is greatest, and its profile seen
// from one side. A sweep over one axis with a segment tree over the other: n log n.

namespace leafwright::fit {

struct Weighted {
  Rect box;
  Length weight{}; // negative for an opening in a slab
};

// Over from..to, the most that any line across finds.
struct Interval {
  Length from{}, to{};
  Length most{};
};

struct Cover {
  Length most{}; // 0 when there is nothing
  Point at;      // the middle of a cell where it is reached, the first by x, then by y
  std::vector<Interval> profile; // along x, without gaps, equal neighbours joined
};

// Touching edges do not overlap. Empty boxes count for nothing.
Cover cover_of(const std::vector<Weighted>& boxes);

// Half the girth of a body with that profile lying on a table: half the length of a thread pulled
// tight around it, rounded up. An envelope must be at least that wide; for a plain sheet it is
// width + thickness.
Length half_girth(const std::vector<Interval>& profile);

} // namespace leafwright::fit
