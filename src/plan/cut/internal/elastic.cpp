#include "plan/cut/internal/elastic.h"

#include <algorithm>

namespace leafwright::cut {

int Elastic::fresh() {
  if (!free_.empty()) {
    const int index = free_.back();
    free_.pop_back();
    nodes_[static_cast<std::size_t>(index)] = {};
    return index;
  }
  nodes_.emplace_back();
  return static_cast<int>(nodes_.size()) - 1;
}

void Elastic::resize_up(int index) {
  for (; index >= 0; index = nodes_[static_cast<std::size_t>(index)].parent) {
    Node& n = nodes_[static_cast<std::size_t>(index)];
    if (n.join == Join::Leaf) continue;
    const Node& a = nodes_[static_cast<std::size_t>(n.a)];
    const Node& b = nodes_[static_cast<std::size_t>(n.b)];
    if (n.join == Join::Beside) {
      n.width = a.width + b.width;
      n.height = std::max(a.height, b.height);
    } else {
      n.width = std::max(a.width, b.width);
      n.height = a.height + b.height;
    }
  }
}

void Elastic::renew() {
  live_.clear();
  if (root_ < 0) return;
  Node& root = nodes_[static_cast<std::size_t>(root_)];
  root.room_width = width_;
  root.room_height = height_;
  live_.push_back(root_);
  for (std::size_t k = 0; k < live_.size(); ++k) {
    const Node n = nodes_[static_cast<std::size_t>(live_[k])];
    if (n.join == Join::Leaf) continue;
    for (const int child : {n.a, n.b}) {
      Node& c = nodes_[static_cast<std::size_t>(child)];
      const bool beside = n.join == Join::Beside;
      c.room_width = beside ? n.room_width - (n.width - c.width) : n.room_width;
      c.room_height = beside ? n.room_height : n.room_height - (n.height - c.height);
      live_.push_back(child);
    }
  }
}

std::int64_t Elastic::score(const OrientedType& shape, int index, Join join) const {
  const Node* n = &nodes_[static_cast<std::size_t>(index)];
  int w = join == Join::Beside ? n->width + shape.width : std::max(n->width, shape.width);
  int h = join == Join::Beside ? std::max(n->height, shape.height) : n->height + shape.height;
  const auto area = [](int a, int b) { return std::int64_t{a} * b; };
  const std::int64_t piece = area(shape.width, shape.height);
  int at = index;
  // Follow the growth upwards until something around it swallows it.
  while (true) {
    const std::int64_t grown = area(w, h) - area(n->width, n->height);
    if (n->parent < 0) return grown - piece + grown / 8;
    const Node& p = nodes_[static_cast<std::size_t>(n->parent)];
    const Node& other = nodes_[static_cast<std::size_t>(p.a == at ? p.b : p.a)];
    const int pw = p.join == Join::Beside ? w + other.width : std::max(w, other.width);
    const int ph = p.join == Join::Beside ? std::max(h, other.height) : h + other.height;
    if (pw == p.width && ph == p.height) return grown - piece;
    at = n->parent;
    n = &p;
    w = pw;
    h = ph;
  }
}

void Elastic::insert(const OrientedType& shape, const Insertion& place) {
  const int leaf = fresh();
  {
    Node& n = nodes_[static_cast<std::size_t>(leaf)];
    n.type = shape.type;
    n.turned = shape.turned;
    n.width = shape.width;
    n.height = shape.height;
  }
  filled_ += std::int64_t{shape.width} * shape.height;
  ++leaves_;
  if (place.node < 0) {
    root_ = leaf;
  } else {
    const int joint = fresh();
    Node& n = nodes_[static_cast<std::size_t>(joint)];
    Node& old = nodes_[static_cast<std::size_t>(place.node)];
    n.join = place.join;
    n.parent = old.parent;
    n.a = place.node;
    n.b = leaf;
    if (old.parent < 0) {
      root_ = joint;
    } else {
      Node& parent = nodes_[static_cast<std::size_t>(old.parent)];
      (parent.a == place.node ? parent.a : parent.b) = joint;
    }
    old.parent = joint;
    nodes_[static_cast<std::size_t>(leaf)].parent = joint;
    resize_up(joint);
  }
  renew();
}

void Elastic::gather(int index, std::vector<int>& types, std::vector<int>& freed) {
  const Node& n = nodes_[static_cast<std::size_t>(index)];
  freed.push_back(index);
  if (n.join == Join::Leaf) {
    types.push_back(n.type);
    filled_ -= std::int64_t{n.width} * n.height;
    --leaves_;
    return;
  }
  gather(n.a, types, freed);
  gather(n.b, types, freed);
}

void Elastic::remove_subtree(int index, std::vector<int>& types) {
  std::vector<int> freed;
  gather(index, types, freed);
  const int parent = nodes_[static_cast<std::size_t>(index)].parent;
  if (parent < 0) {
    root_ = -1;
  } else {
    const Node p = nodes_[static_cast<std::size_t>(parent)];
    const int other = p.a == index ? p.b : p.a;
    nodes_[static_cast<std::size_t>(other)].parent = p.parent;
    if (p.parent < 0) {
      root_ = other;
    } else {
      Node& up = nodes_[static_cast<std::size_t>(p.parent)];
      (up.a == parent ? up.a : up.b) = other;
    }
    freed.push_back(parent);
    resize_up(p.parent);
  }
  free_.insert(free_.end(), freed.begin(), freed.end());
  renew();
}

int Elastic::leaves_under(int index) const {
  const Node& n = nodes_[static_cast<std::size_t>(index)];
  return n.join == Join::Leaf ? 1 : leaves_under(n.a) + leaves_under(n.b);
}

void Elastic::load(const Slice& slice) {
  nodes_.clear();
  free_.clear();
  root_ = slice.root();
  leaves_ = 0;
  filled_ = 0;
  for (const SliceNode& from : slice.nodes) {
    Node n;
    n.join = from.join;
    n.turned = from.turned;
    n.type = from.type;
    n.a = from.a;
    n.b = from.b;
    n.width = from.width;
    n.height = from.height;
    const int index = static_cast<int>(nodes_.size());
    nodes_.push_back(n);
    if (n.join == Join::Leaf) {
      ++leaves_;
      filled_ += std::int64_t{n.width} * n.height;
    } else {
      nodes_[static_cast<std::size_t>(n.a)].parent = index;
      nodes_[static_cast<std::size_t>(n.b)].parent = index;
    }
  }
  renew();
}

int Elastic::copy_into(Slice& slice, int index) const {
  const Node& n = nodes_[static_cast<std::size_t>(index)];
  if (n.join == Join::Leaf) return slice.leaf({n.width, n.height, n.type, n.turned});
  const int a = copy_into(slice, n.a);
  const int b = copy_into(slice, n.b);
  return slice.join(n.join, a, b);
}

Slice Elastic::slice() const {
  Slice result;
  if (root_ >= 0) copy_into(result, root_);
  return result;
}

} // namespace leafwright::cut
