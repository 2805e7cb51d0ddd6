#include "plan/cut/slice.h"

#include <algorithm>

namespace leafwright::cut {

int Slice::leaf(const Shape& shape) {
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
    const Shape waste{node.width, node.height, -1, false};
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

} // namespace leafwright::cut
