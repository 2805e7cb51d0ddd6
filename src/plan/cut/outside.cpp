#include "plan/cut/enumerate.h"
#include "plan/cut/sweep.h"

#include <algorithm>

namespace leafwright::cut {

Outside::Outside(const Inside& inside)
    : rows_(inside.x().points.size()), columns_(inside.y().points.size()), stride_(inside.stride()),
      table_(rows_ * stride_, 0) {
  if (rows_ < 2 || columns_ < 2) return;
  const Raster& x = inside.x();
  const int smallest = x.points[1];
  std::vector<RowPair> pairs;
  // Rows nearer than the smallest size do not depend on one another by upright cuts.
  for (std::size_t end = rows_; end > 1;) {
    std::size_t begin = end - 1;
    while (begin > 1 && end - begin < block_rows &&
           x.points[end - 1] - x.points[begin - 1] < smallest) {
      --begin;
    }
    for (std::size_t i = begin; i < end; ++i) {
      pairs.clear();
      for (std::size_t k = end; k < rows_; ++k) {
        const int rest = x.below[static_cast<std::size_t>(x.points[k] - x.points[i])];
        if (rest == 0 && k > end) continue;
        pairs.push_back({static_cast<std::uint32_t>(k), static_cast<std::uint32_t>(rest)});
      }
      sweep_rows(&table_[i * stride_], table_.data(), inside.table(), stride_, pairs, stride_);
    }
    finish_block(inside, begin, end);
    end = begin;
  }
}

// Level cuts of a block of rows, side by side.
void Outside::finish_block(const Inside& inside, std::size_t begin, std::size_t end) {
  const std::size_t height = end - begin;
  const std::size_t lanes = (height + lane_count - 1) / lane_count * lane_count;
  std::vector<Value> block(columns_ * lanes, 0);
  std::vector<Value> inner(columns_ * lanes, 0);
  for (std::size_t k = 0; k < height; ++k) {
    const Value* row = &table_[(begin + k) * stride_];
    const Value* from = inside.table() + (begin + k) * stride_;
    for (std::size_t j = 0; j < columns_; ++j) {
      block[j * lanes + k] = row[j];
      inner[j * lanes + k] = from[j];
    }
  }
  const Raster& y = inside.y();
  sweep_block_back(block.data(), inner.data(), lanes, y.points, y.below);
  for (std::size_t k = 0; k < height; ++k) {
    Value* row = &table_[(begin + k) * stride_];
    for (std::size_t j = 1; j < columns_; ++j) row[j] = block[j * lanes + k];
  }
}

std::int64_t outside_work(const Inside& inside) {
  const auto rows = static_cast<std::int64_t>(inside.x().points.size());
  const auto columns = static_cast<std::int64_t>(inside.y().points.size());
  return rows * columns * (rows + columns) / 8;
}

} // namespace leafwright::cut
