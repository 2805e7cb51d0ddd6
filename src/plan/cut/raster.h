#pragma once

#include "plan/cut/normal.h"

#include <cstdint>
#include <span>
#include <vector>

/// Where cuts need to be tried: at sums of piece sizes (Herz 1972; Christofides and Whitlock 1977).
/// Either all sums the wanted copies allow, or, of the sums with any number of copies, the reduced
/// raster points that stay distinct seen from the far edge (Terno, Lindemann, Scheithauer 1987),
/// whichever are fewer. The reduction needs sums closed under addition, so the two are not
/// combined.
namespace leafwright::cut {

enum class Axis { X, Y };

/// Ascending, first 0. `wanted[type]` bounds the copies of each type; a type with `used[type]`
/// false is left out. At most `most_points` (0: no limit): then evenly thinned, which keeps plans
/// valid but loses exactness; `thinned` tells.
struct Raster {
  std::vector<int> points;
  std::vector<int> below; ///< below[v] = index of the last point <= v, for v = 0..extent
  bool thinned = false;
};

Raster raster_points(int extent, Axis axis, std::span<const Shape> shapes,
                     std::span<const std::int64_t> wanted, std::span<const char> used,
                     int most_points);

} // namespace leafwright::cut
