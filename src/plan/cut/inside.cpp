#include "plan/cut/inside.h"

#include "plan/cut/sweep.h"

#include <algorithm>

namespace leafwright::cut {

namespace {

std::vector<char> used_types(std::span<const Value> value) {
  std::vector<char> used(value.size(), 0);
  for (std::size_t t = 0; t < value.size(); ++t) used[t] = value[t] > 0 ? 1 : 0;
  return used;
}

std::size_t first_point_from(const Raster& raster, int size) {
  return static_cast<std::size_t>(
      std::lower_bound(raster.points.begin(), raster.points.end(), size) - raster.points.begin());
}

} // namespace

Inside::Inside(int width, int height, std::span<const Shape> shapes,
               std::span<const std::int64_t> wanted, std::span<const Value> value,
               int most_points) {
  const std::vector<char> used = used_types(value);
  x_ = raster_points(width, Axis::X, shapes, wanted, used, most_points);
  y_ = raster_points(height, Axis::Y, shapes, wanted, used, most_points);
  for (const Shape& shape : shapes) {
    const auto type = static_cast<std::size_t>(shape.type);
    if (used[type] == 0 || wanted[type] <= 0) continue;
    shapes_.push_back(shape);
    worth_.push_back(value[type]);
  }
  fill();
}

void Inside::fill() {
  const std::size_t rows = x_.points.size();
  const std::size_t columns = y_.points.size();
  stride_ = (columns + lane_count - 1) / lane_count * lane_count;
  table_.assign(rows * stride_, 0);
  for (std::size_t k = 0; k < shapes_.size(); ++k) {
    const std::size_t i = first_point_from(x_, shapes_[k].width);
    const std::size_t j = first_point_from(y_, shapes_[k].height);
    if (i >= rows || j >= columns) continue;
    Value& cell = table_[i * stride_ + j];
    cell = std::max(cell, worth_[k]);
  }
  if (rows < 2 || columns < 2) return;

  // Rows nearer than the smallest size do not depend on one another by upright cuts, so a block of
  // them can take its level cuts side by side in one vector.
  const int smallest = x_.points[1];
  std::vector<RowPair> pairs;
  std::vector<Value> block(columns * block_rows);
  for (std::size_t begin = 1; begin < rows;) {
    std::size_t end = begin + 1;
    while (end < rows && end - begin < block_rows && x_.points[end] < x_.points[begin] + smallest) {
      ++end;
    }
    for (std::size_t i = begin; i < end; ++i) {
      const int w = x_.points[i];
      pairs.clear();
      for (std::size_t x = 1; 2 * x_.points[x] <= w; ++x) {
        pairs.push_back(
            {static_cast<std::uint32_t>(x),
             static_cast<std::uint32_t>(x_.below[static_cast<std::size_t>(w - x_.points[x])])});
      }
      // What the row before this block is worth, this row is worth.
      if (i == begin) pairs.push_back({static_cast<std::uint32_t>(i - 1), 0});
      sweep_rows(&table_[i * stride_], table_.data(), table_.data(), stride_, pairs, stride_);
      work_ += static_cast<std::int64_t>(pairs.size() * stride_);
    }
    const std::size_t height = end - begin;
    const std::size_t lanes = (height + lane_count - 1) / lane_count * lane_count;
    for (std::size_t j = 0; j < columns; ++j) {
      Value* to = &block[j * lanes];
      for (std::size_t k = 0; k < height; ++k) to[k] = table_[(begin + k) * stride_ + j];
      for (std::size_t k = height; k < lanes; ++k) to[k] = 0;
    }
    sweep_block(block.data(), lanes, y_.points, y_.below);
    work_ += static_cast<std::int64_t>(columns * columns / 4 * lanes);
    for (std::size_t k = 0; k < height; ++k) {
      Value* row = &table_[(begin + k) * stride_];
      for (std::size_t j = 0; j < columns; ++j) row[j] = block[j * lanes + k];
    }
    begin = end;
  }
}

Value Inside::best() const {
  return at(static_cast<int>(x_.points.size()) - 1, static_cast<int>(y_.points.size()) - 1);
}

bool Inside::trace_piece(int i, int j, Slice& slice, int& node) const {
  const int w = x_.points[static_cast<std::size_t>(i)];
  const int h = y_.points[static_cast<std::size_t>(j)];
  const Value value = at(i, j);
  for (std::size_t k = 0; k < shapes_.size(); ++k) {
    if (worth_[k] == value && shapes_[k].width <= w && shapes_[k].height <= h) {
      node = slice.leaf(shapes_[k]);
      return true;
    }
  }
  return false;
}

bool Inside::trace_cut(int i, int j, Slice& slice, int& node) const {
  const int w = x_.points[static_cast<std::size_t>(i)];
  const int h = y_.points[static_cast<std::size_t>(j)];
  const Value value = at(i, j);
  for (int x = 1; x < i && 2 * x_.points[static_cast<std::size_t>(x)] <= w; ++x) {
    const int rest = x_.below[static_cast<std::size_t>(w - x_.points[static_cast<std::size_t>(x)])];
    if (at(x, j) + at(rest, j) == value) {
      const int a = trace(x, j, slice);
      const int b = trace(rest, j, slice);
      node = slice.join(Join::Beside, a, b);
      return true;
    }
  }
  for (int y = 1; y < j && 2 * y_.points[static_cast<std::size_t>(y)] <= h; ++y) {
    const int rest = y_.below[static_cast<std::size_t>(h - y_.points[static_cast<std::size_t>(y)])];
    if (at(i, y) + at(i, rest) == value) {
      const int a = trace(i, y, slice);
      const int b = trace(i, rest, slice);
      node = slice.join(Join::Above, a, b);
      return true;
    }
  }
  return false;
}

int Inside::trace(int i, int j, Slice& slice) const {
  const Value value = at(i, j);
  if (value == 0) return -1;
  while (i > 1 && at(i - 1, j) == value) --i;
  while (j > 1 && at(i, j - 1) == value) --j;
  int node = -1;
  if (!trace_piece(i, j, slice, node)) trace_cut(i, j, slice, node);
  return node;
}

Slice Inside::pattern() const {
  Slice slice;
  trace(static_cast<int>(x_.points.size()) - 1, static_cast<int>(y_.points.size()) - 1, slice);
  return slice;
}

std::vector<Slice> Inside::patterns(Value above, int most) const {
  std::vector<Slice> result;
  if (best() <= above) return result;
  result.push_back(pattern());
  struct First {
    Value value;
    bool upright;
    int at, rest;
  };
  std::vector<First> firsts;
  const int i = static_cast<int>(x_.points.size()) - 1;
  const int j = static_cast<int>(y_.points.size()) - 1;
  const int w = x_.points.back();
  const int h = y_.points.back();
  for (int x = 1; x <= i && 2 * x_.points[static_cast<std::size_t>(x)] <= w; ++x) {
    const int rest = x_.below[static_cast<std::size_t>(w - x_.points[static_cast<std::size_t>(x)])];
    const Value value = at(x, j) + at(rest, j);
    if (value > above) firsts.push_back({value, true, x, rest});
  }
  for (int y = 1; y <= j && 2 * y_.points[static_cast<std::size_t>(y)] <= h; ++y) {
    const int rest = y_.below[static_cast<std::size_t>(h - y_.points[static_cast<std::size_t>(y)])];
    const Value value = at(i, y) + at(i, rest);
    if (value > above) firsts.push_back({value, false, y, rest});
  }
  std::stable_sort(firsts.begin(), firsts.end(),
                   [](const First& a, const First& b) { return a.value > b.value; });
  Value last = best();
  for (const First& first : firsts) {
    if (static_cast<int>(result.size()) >= most) break;
    if (first.value == last) continue; // most likely the same pattern again
    last = first.value;
    Slice slice;
    const int a = first.upright ? trace(first.at, j, slice) : trace(i, first.at, slice);
    const int b = first.upright ? trace(first.rest, j, slice) : trace(i, first.rest, slice);
    slice.join(first.upright ? Join::Beside : Join::Above, a, b);
    result.push_back(std::move(slice));
  }
  return result;
}

} // namespace leafwright::cut
