#pragma once

#include "plan/cut/normal.h"

#include <cstdint>
#include <span>
#include <utility>
#include <vector>

/// A slicing tree: pieces set beside or above one another. It has no waste in it; where the waste
/// falls is decided when the tree is laid out on its sheet.
namespace leafwright::cut {

enum class Join : std::uint8_t { Leaf, Beside, Above };

struct SliceNode {
  Join join = Join::Leaf;
  bool turned = false;       ///< leaf
  int type = -1;             ///< leaf
  int a = -1, b = -1;        ///< joined subtrees, indices below this node's own
  int width = 0, height = 0; ///< smallest box
};

struct Slice {
  std::vector<SliceNode> nodes; ///< the root is the last; empty: no piece at all

  bool empty() const { return nodes.empty(); }
  int root() const { return static_cast<int>(nodes.size()) - 1; }
  int leaf(const Shape& shape);
  int join(Join how, int first, int second); ///< either may be -1
};

/// (type, copies), types ascending.
using Counts = std::vector<std::pair<int, int>>;

Counts counts_of(const Slice& slice);

/// The tree without the leaves beyond `most[type]`, last ones dropped first; `rigid`: they turn
/// into waste in their place.
Slice capped(const Slice& slice, std::span<const std::int64_t> most, bool rigid = false);

/// A pattern of the pool.
struct Column {
  int stock = 0;
  Counts counts;
  Slice slice;
};

} // namespace leafwright::cut
