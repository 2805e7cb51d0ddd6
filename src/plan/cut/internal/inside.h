#pragma once

#include "plan/cut/internal/normal.h"
#include "plan/cut/internal/raster.h"

#include <cstdint>
#include <span>
#include <utility>
#include <vector>

// A slicing tree: pieces set beside or above one another. It has no waste in it; where the waste
// falls is decided when the tree is laid out on its sheet.

namespace leafwright::cut {

enum class Join : std::uint8_t { Leaf, Beside, Above };

struct SliceNode {
  Join join = Join::Leaf;
  bool turned = false;       // leaf
  int type = -1;             // leaf
  int a = -1, b = -1;        // joined subtrees, indices below this node's own
  int width = 0, height = 0; // smallest box
};

struct Slice {
  std::vector<SliceNode> nodes; // the root is the last; empty: no piece at all

  bool empty() const { return nodes.empty(); }
  int root() const { return static_cast<int>(nodes.size()) - 1; }
  int leaf(const OrientedType& shape);
  int join(Join how, int first, int second); // either may be -1
};

// (type, copies), types ascending.
using Counts = std::vector<std::pair<int, int>>;

Counts counts_of(const Slice& slice);

// The tree without the leaves beyond `most[type]`, last ones dropped first; `rigid`: they turn
// into waste in their place.
Slice capped(const Slice& slice, std::span<const std::int64_t> most, bool rigid = false);

// A pattern of the pool.
struct Column {
  int stock = 0;
  Counts counts;
  Slice slice;
};

// The value of a piece or pattern, in whole units small enough that two patterns add up in 32
// bits.
using Value = std::int32_t;

// The guillotine knapsack: the most value one rectangle can yield when it is cut edge to edge any
// number of times and any number of copies is allowed (Gilmore and Gomory 1966 on the grid of
// reduced raster points). f(w, h) for every grid point at once.
class Inside {
 public:
  // `most_points` per axis, 0: exact. `value[type]`; types of value 0 are left out of the grid.
  Inside(int width, int height, std::span<const OrientedType> shapes,
         std::span<const std::int64_t> wanted, std::span<const Value> value, int most_points);

  Value best() const;
  bool exact() const { return !x_.thinned && !y_.thinned; }
  std::int64_t work() const { return work_; }
  // One best pattern of the whole rectangle.
  Slice pattern() const;
  // Best patterns for each first cut of the whole rectangle whose value exceeds `above`, best
  // first, at most `most`. The overall best comes first.
  std::vector<Slice> patterns(Value above, int most) const;

  const Raster& x() const { return x_; }
  const Raster& y() const { return y_; }
  // Values per x point: rows of stride(), zero beyond the last y point.
  const Value* table() const { return table_.data(); }
  std::size_t stride() const { return stride_; }
  Value at(int i, int j) const {
    return table_[static_cast<std::size_t>(i) * stride_ + static_cast<std::size_t>(j)];
  }

 private:
  int trace(int i, int j, Slice& slice) const;
  bool trace_piece(int i, int j, Slice& slice, int& node) const;
  bool trace_cut(int i, int j, Slice& slice, int& node) const;
  void fill();

  Raster x_, y_;
  std::vector<OrientedType> shapes_;
  std::vector<Value> worth_; // per shape
  std::vector<Value> table_; // row per x point, padded to whole vectors
  std::size_t stride_ = 0;
  std::int64_t work_ = 0;
};

} // namespace leafwright::cut
