#include "plan/cut/internal/ruled.h"

#include <algorithm>

namespace leafwright::cut {

namespace {

constexpr int most_sizes = 420;

struct PartSizes {
  std::vector<int> list, index;
  bool exact = true;
};

// All sizes up to the extent, or where those are too many, sums of pieces and smallest strips seen
// from either edge.
PartSizes part_sizes(int extent, Axis axis, std::span<const OrientedType> shapes, int strip) {
  std::vector<char> keep(static_cast<std::size_t>(extent) + 1, 1);
  PartSizes sizes;
  if (extent > most_sizes) {
    sizes.exact = false;
    std::vector<char> reach(static_cast<std::size_t>(extent) + 1, 0);
    reach[0] = 1;
    const auto close = [&](int size) {
      for (int v = size; size > 0 && v <= extent; ++v) {
        if (reach[static_cast<std::size_t>(v - size)] != 0) reach[static_cast<std::size_t>(v)] = 1;
      }
    };
    int points = 1;
    for (const OrientedType& shape : shapes) {
      if (points > most_sizes / 2) break;
      close(axis == Axis::X ? shape.width : shape.height);
      points = static_cast<int>(std::count(reach.begin(), reach.end(), 1));
    }
    std::fill(keep.begin(), keep.end(), 0);
    int kept = 0;
    for (int v = 0; v <= extent && kept < most_sizes; ++v) {
      if (reach[static_cast<std::size_t>(v)] == 0) continue;
      keep[static_cast<std::size_t>(v)] = 1;
      keep[static_cast<std::size_t>(extent - v)] = 1;
      if (v + strip <= extent) keep[static_cast<std::size_t>(v + strip)] = 1;
      kept += 2;
    }
    for (const OrientedType& shape : shapes) {
      const int size = axis == Axis::X ? shape.width : shape.height;
      keep[static_cast<std::size_t>(size)] = 1;
      keep[static_cast<std::size_t>(extent - size)] = 1;
    }
  }
  keep[0] = 1;
  sizes.index.assign(static_cast<std::size_t>(extent) + 1, -1);
  for (int v = 0; v <= extent; ++v) {
    if (keep[static_cast<std::size_t>(v)] == 0) continue;
    sizes.index[static_cast<std::size_t>(v)] = static_cast<int>(sizes.list.size());
    sizes.list.push_back(v);
  }
  return sizes;
}

} // namespace

Ruled::Ruled(int width, int height, std::span<const OrientedType> shapes,
             std::span<const Value> value, int strip_x, int strip_y, int stages)
    : strip_x_(std::max(1, strip_x)), strip_y_(std::max(1, strip_y)), stages_(stages) {
  for (const OrientedType& shape : shapes) {
    const Value worth = value[static_cast<std::size_t>(shape.type)];
    if (worth <= 0) continue;
    shapes_.push_back(shape);
    worth_.push_back(worth);
  }
  PartSizes x = part_sizes(width, Axis::X, shapes_, strip_x_);
  PartSizes y = part_sizes(height, Axis::Y, shapes_, strip_y_);
  exact_ = x.exact && y.exact;
  x_ = std::move(x.list);
  x_index_ = std::move(x.index);
  y_ = std::move(y.list);
  y_index_ = std::move(y.index);
  shape_at_.assign(x_.size() * y_.size(), -1);
  for (std::size_t k = 0; k < shapes_.size(); ++k) {
    const int i = x_index_[static_cast<std::size_t>(shapes_[k].width)];
    const int j = y_index_[static_cast<std::size_t>(shapes_[k].height)];
    int& at = shape_at_[static_cast<std::size_t>(i) * y_.size() + static_cast<std::size_t>(j)];
    if (at < 0 || worth_[k] > worth_[static_cast<std::size_t>(at)]) at = static_cast<int>(k);
  }
  const std::size_t levels = stages_ > 0 ? static_cast<std::size_t>(stages_) + 1 : 1;
  tables_.assign(levels * 2, {});
  const std::size_t used = stages_ > 0 ? levels * 2 : 1;
  for (std::size_t t = 0; t < used; ++t) tables_[t].assign(x_.size() * y_.size(), 0);
  if (stages_ > 0) {
    fill_staged();
  } else {
    fill_free();
  }
}

Value& Ruled::at(int level, int direction, int i, int j) {
  return tables_[static_cast<std::size_t>(level * 2 + direction)]
                [static_cast<std::size_t>(i) * y_.size() + static_cast<std::size_t>(j)];
}

Value Ruled::at(int level, int direction, int i, int j) const {
  return tables_[static_cast<std::size_t>(level * 2 + direction)]
                [static_cast<std::size_t>(i) * y_.size() + static_cast<std::size_t>(j)];
}

Value Ruled::piece(int i, int j) const {
  const int k = shape_at_[static_cast<std::size_t>(i) * y_.size() + static_cast<std::size_t>(j)];
  return k < 0 ? 0 : worth_[static_cast<std::size_t>(k)];
}

void Ruled::fill_free() {
  const int rows = static_cast<int>(x_.size());
  const int columns = static_cast<int>(y_.size());
  for (int i = 1; i < rows; ++i) {
    const int w = x_[static_cast<std::size_t>(i)];
    for (int j = 1; j < columns; ++j) {
      const int h = y_[static_cast<std::size_t>(j)];
      Value best = piece(i, j);
      for (int k = 1; k < i && 2 * x_[static_cast<std::size_t>(k)] <= w; ++k) {
        const int size = x_[static_cast<std::size_t>(k)];
        const int rest = x_index_[static_cast<std::size_t>(w - size)];
        if (size < strip_x_ || rest < 0) continue;
        best = std::max(best, at(0, 0, k, j) + at(0, 0, rest, j));
      }
      for (int k = 1; k < j && 2 * y_[static_cast<std::size_t>(k)] <= h; ++k) {
        const int size = y_[static_cast<std::size_t>(k)];
        const int rest = y_index_[static_cast<std::size_t>(h - size)];
        if (size < strip_y_ || rest < 0) continue;
        best = std::max(best, at(0, 0, i, k) + at(0, 0, i, rest));
      }
      at(0, 0, i, j) = best;
      work_ += i + j;
    }
  }
}

void Ruled::fill_staged() {
  const int rows = static_cast<int>(x_.size());
  const int columns = static_cast<int>(y_.size());
  for (int level = 0; level <= stages_; ++level) {
    for (int direction = 0; direction < 2; ++direction) {
      for (int i = 1; i < rows; ++i) {
        for (int j = 1; j < columns; ++j) {
          if (level == 0) {
            at(level, direction, i, j) = piece(i, j);
            continue;
          }
          // A strip that is not cut this way again, and what is left of the part.
          Value best = at(level - 1, 1 - direction, i, j);
          if (direction == 0) {
            for (int k = 1; k < i; ++k) {
              const int size = x_[static_cast<std::size_t>(k)];
              const int left = x_[static_cast<std::size_t>(i)] - size;
              const int rest = x_index_[static_cast<std::size_t>(left)];
              if (size < strip_x_ || left < strip_x_ || rest < 0) continue;
              best = std::max(best, at(level - 1, 1, k, j) + at(level, 0, rest, j));
            }
          } else {
            for (int k = 1; k < j; ++k) {
              const int size = y_[static_cast<std::size_t>(k)];
              const int left = y_[static_cast<std::size_t>(j)] - size;
              const int rest = y_index_[static_cast<std::size_t>(left)];
              if (size < strip_y_ || left < strip_y_ || rest < 0) continue;
              best = std::max(best, at(level - 1, 0, i, k) + at(level, 1, i, rest));
            }
          }
          at(level, direction, i, j) = best;
          work_ += direction == 0 ? i : j;
        }
      }
    }
  }
}

Value Ruled::best() const {
  const int i = static_cast<int>(x_.size()) - 1;
  const int j = static_cast<int>(y_.size()) - 1;
  return stages_ > 0 ? std::max(at(stages_, 0, i, j), at(stages_, 1, i, j)) : at(0, 0, i, j);
}

Slice Ruled::pattern() const {
  Slice slice;
  const int i = static_cast<int>(x_.size()) - 1;
  const int j = static_cast<int>(y_.size()) - 1;
  const int direction = stages_ > 0 && at(stages_, 1, i, j) > at(stages_, 0, i, j) ? 1 : 0;
  trace({stages_, direction, i, j}, slice);
  return slice;
}

int Ruled::leaf(int i, int j, Slice& slice) const {
  const int k = shape_at_[static_cast<std::size_t>(i) * y_.size() + static_cast<std::size_t>(j)];
  if (k >= 0) return slice.leaf(shapes_[static_cast<std::size_t>(k)]);
  return slice.leaf({x_[static_cast<std::size_t>(i)], y_[static_cast<std::size_t>(j)], -1, false});
}

bool Ruled::trace_along(State s, int direction, int first_level, int first_direction, Slice& slice,
                        int& node) const {
  const Value value = at(s.level, s.direction, s.i, s.j);
  const std::vector<int>& sizes = direction == 0 ? x_ : y_;
  const std::vector<int>& index = direction == 0 ? x_index_ : y_index_;
  const int whole = direction == 0 ? s.i : s.j;
  const int strip = direction == 0 ? strip_x_ : strip_y_;
  for (int k = 1; k < whole; ++k) {
    const int size = sizes[static_cast<std::size_t>(k)];
    const int left = sizes[static_cast<std::size_t>(whole)] - size;
    const int rest = index[static_cast<std::size_t>(left)];
    if (size < strip || left < strip || rest < 0) continue;
    State a{first_level, first_direction, s.i, s.j};
    State b = s;
    (direction == 0 ? a.i : a.j) = k;
    (direction == 0 ? b.i : b.j) = rest;
    if (at(a.level, a.direction, a.i, a.j) + at(b.level, b.direction, b.i, b.j) != value) continue;
    const int first = trace(a, slice);
    const int second = trace(b, slice);
    node = slice.join(direction == 0 ? Join::Beside : Join::Above, first, second);
    return true;
  }
  return false;
}

int Ruled::trace(State s, Slice& slice) const {
  const Value value = at(s.level, s.direction, s.i, s.j);
  if (value == piece(s.i, s.j)) return leaf(s.i, s.j, slice);
  int node = -1;
  if (stages_ == 0) {
    if (!trace_along(s, 0, 0, 0, slice, node)) trace_along(s, 1, 0, 0, slice, node);
    return node;
  }
  const State turned{s.level - 1, 1 - s.direction, s.i, s.j};
  if (at(turned.level, turned.direction, s.i, s.j) == value) return trace(turned, slice);
  trace_along(s, s.direction, s.level - 1, 1 - s.direction, slice, node);
  return node;
}

} // namespace leafwright::cut
