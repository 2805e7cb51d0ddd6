#pragma once

#include "plan/cut/normal.h"

#include <cstdint>
#include <span>
#include <vector>

/// Where cuts need to be tried. Raster points: sums of piece sizes that the wanted copies allow.
/// Reduced raster points: of those, the ones that stay distinct seen from the far edge (Terno,
/// Lindemann, Scheithauer 1987; Scheithauer 1997).
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

Raster reduced_raster(int extent, Axis axis, std::span<const Shape> shapes,
                      std::span<const std::int64_t> wanted, std::span<const char> used,
                      int most_points);

} // namespace leafwright::cut
