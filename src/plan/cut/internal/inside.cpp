#include "plan/cut/internal/inside.h"

#include "plan/cut/internal/enumerate.h"
#include "plan/cut/internal/raster.h"

#include <algorithm>

namespace leafwright::cut {

int Slice::leaf(const OrientedType& shape) {
  SliceNode node;
  node.type = shape.type;
  node.turned = shape.turned;
  node.width = shape.width;
  node.height = shape.height;
  nodes.push_back(node);
  return root();
}

int Slice::join(Join how, int first, int second) {
  if (first < 0) return second;
  if (second < 0) return first;
  const SliceNode& a = nodes[static_cast<std::size_t>(first)];
  const SliceNode& b = nodes[static_cast<std::size_t>(second)];
  SliceNode node;
  node.join = how;
  node.a = first;
  node.b = second;
  if (how == Join::Beside) {
    node.width = a.width + b.width;
    node.height = std::max(a.height, b.height);
  } else {
    node.width = std::max(a.width, b.width);
    node.height = a.height + b.height;
  }
  nodes.push_back(node);
  return root();
}

Counts counts_of(const Slice& slice) {
  std::vector<int> types;
  for (const SliceNode& node : slice.nodes) {
    if (node.join == Join::Leaf && node.type >= 0) types.push_back(node.type);
  }
  std::sort(types.begin(), types.end());
  Counts counts;
  for (int type : types) {
    if (counts.empty() || counts.back().first != type) counts.emplace_back(type, 0);
    ++counts.back().second;
  }
  return counts;
}

namespace {

int copy_capped(const Slice& from, int at, std::vector<std::int64_t>& left, bool rigid, Slice& to) {
  const SliceNode& node = from.nodes[static_cast<std::size_t>(at)];
  if (node.join == Join::Leaf) {
    const OrientedType waste{node.width, node.height, -1, false};
    if (node.type < 0) return to.leaf(waste);
    std::int64_t& rest = left[static_cast<std::size_t>(node.type)];
    if (rest <= 0) return rigid ? to.leaf(waste) : -1;
    --rest;
    return to.leaf({node.width, node.height, node.type, node.turned});
  }
  const int first = copy_capped(from, node.a, left, rigid, to);
  const int second = copy_capped(from, node.b, left, rigid, to);
  return to.join(node.join, first, second);
}

} // namespace

Slice capped(const Slice& slice, std::span<const std::int64_t> most, bool rigid) {
  Slice result;
  if (slice.empty()) return result;
  std::vector<std::int64_t> left(most.begin(), most.end());
  copy_capped(slice, slice.root(), left, rigid, result);
  return result;
}

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

Inside::Inside(int width, int height, std::span<const OrientedType> shapes,
               std::span<const std::int64_t> wanted, std::span<const Value> value,
               int most_points) {
  const std::vector<char> used = used_types(value);
  x_ = raster_points(width, Axis::X, shapes, wanted, used, most_points);
  y_ = raster_points(height, Axis::Y, shapes, wanted, used, most_points);
  for (const OrientedType& shape : shapes) {
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
