#pragma once

#include <cstddef>
#include <cstdint>
#include <span>

/// The two inner loops of the guillotine knapsack, written for vector registers. Whole numbers
/// only, so every processor gives the same result.
namespace leafwright::cut {

constexpr std::size_t lane_count = 8; ///< values in one vector
constexpr std::size_t block_rows = 64;

struct RowPair {
  std::uint32_t left = 0, right = 0; ///< row numbers
};

/// out[j] = max(out[j], lefts[left][j] + rights[right][j]) over all pairs, for j < length (a
/// multiple of lane_count). Both tables have rows of `stride`.
void sweep_rows(std::int32_t* out, const std::int32_t* lefts, const std::int32_t* rights,
                std::size_t stride, std::span<const RowPair> pairs, std::size_t length);

/// The same within one block turned on its side: row j of `block` holds `lanes` values (a multiple
/// of lane_count, at most block_rows). Rows are finished in order: cuts, then the row before (more
/// length is never worse), then from lane to lane.
void sweep_block(std::int32_t* block, std::size_t lanes, std::span<const int> points,
                 std::span<const int> below);

/// The same block wise step from the far end for the outside of the knapsack: row j of `block`
/// takes the most of row k > j plus the row of `inner` that fills the difference. Rows are finished
/// from the last; more room outside is never worse, so lanes are finished from the last too.
void sweep_block_back(std::int32_t* block, const std::int32_t* inner, std::size_t lanes,
                      std::span<const int> points, std::span<const int> below);

} // namespace leafwright::cut
