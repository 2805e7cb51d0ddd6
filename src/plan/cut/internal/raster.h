#pragma once

#include "plan/cut/internal/normal.h"

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

// Where cuts need to be tried: at sums of piece sizes (Herz 1972; Christofides and Whitlock 1977).
// Either all sums the wanted copies allow, or, of the sums with any number of copies, the reduced
// raster points that stay distinct seen from the far edge (Terno, Lindemann, Scheithauer 1987),
// whichever are fewer. The reduction needs sums closed under addition, so the two are not
// combined.

namespace leafwright::cut {

enum class Axis { X, Y };

// Ascending, first 0. `wanted[type]` bounds the copies of each type; a type with `used[type]`
// false is left out. At most `most_points` (0: no limit): then evenly thinned, which keeps plans
// valid but loses exactness; `thinned` tells.
struct Raster {
  std::vector<int> points;
  std::vector<int> below; // below[v] = index of the last point <= v, for v = 0..extent
  bool thinned = false;
};

Raster raster_points(int extent, Axis axis, std::span<const OrientedType> shapes,
                     std::span<const std::int64_t> wanted, std::span<const char> used,
                     int most_points);

// The two inner loops of the guillotine knapsack, written for vector registers. Whole numbers
// only, so every processor gives the same result.

constexpr std::size_t lane_count = 8; // values in one vector
constexpr std::size_t block_rows = 64;

struct RowPair {
  std::uint32_t left = 0, right = 0; // row numbers
};

// out[j] = max(out[j], lefts[left][j] + rights[right][j]) over all pairs, for j < length (a
// multiple of lane_count). Both tables have rows of `stride`.
void sweep_rows(std::int32_t* out, const std::int32_t* lefts, const std::int32_t* rights,
                std::size_t stride, std::span<const RowPair> pairs, std::size_t length);

// The same within one block turned on its side: row j of `block` holds `lanes` values (a multiple
// of lane_count, at most block_rows). Rows are finished in order: cuts, then the row before (more
// length is never worse), then from lane to lane.
void sweep_block(std::int32_t* block, std::size_t lanes, std::span<const int> points,
                 std::span<const int> below);

// The same block wise step from the far end for the outside of the knapsack: row j of `block`
// takes the most of row k > j plus the row of `inner` that fills the difference. Rows are finished
// from the last; more room outside is never worse, so lanes are finished from the last too.
void sweep_block_back(std::int32_t* block, const std::int32_t* inner, std::size_t lanes,
                      std::span<const int> points, std::span<const int> below);

} // namespace leafwright::cut
