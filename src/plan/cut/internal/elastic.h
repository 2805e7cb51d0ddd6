#pragma once

#include "plan/cut/internal/inside.h"
#include "plan/cut/internal/normal.h"

#include <cstdint>
#include <vector>

namespace leafwright::cut {

// One sheet's slicing tree that pieces can be put into and taken out of. Sizes are the smallest
// boxes; `room` is the box a node could grow to with everything around it left as it is.
class Elastic {
 public:
  struct Node {
    Join join = Join::Leaf;
    bool turned = false;
    int type = -1;
    int parent = -1, a = -1, b = -1;
    int width = 0, height = 0;
    int room_width = 0, room_height = 0;
  };
  struct Insertion {
    int node = -1; // -1: the empty sheet itself
    Join join = Join::Beside;
    std::int64_t score = 0; // dead area it makes; less is better
  };

  Elastic(int width, int height) : width_(width), height_(height) {}

  bool empty() const { return root_ < 0; }
  std::int64_t filled() const { return filled_; }
  int width() const { return width_; }
  int height() const { return height_; }
  int leaves() const { return leaves_; }

  // Best place for the shape among all that fit, looking at each with chance `attention`.
  template <typename Look>
  bool best_place(const OrientedType& shape, Insertion& best, Look look) const;
  void insert(const OrientedType& shape, const Insertion& place);
  // Takes out the subtree at a node drawn from live nodes, at most `most` pieces; appends types.
  void remove_subtree(int node, std::vector<int>& types);
  int live_node(int draw) const { return live_[static_cast<std::size_t>(draw)]; }
  int live_count() const { return static_cast<int>(live_.size()); }
  int leaves_under(int node) const;
  const Node& node(int index) const { return nodes_[static_cast<std::size_t>(index)]; }
  void load(const Slice& slice);
  Slice slice() const;
  std::int64_t looked() const { return looked_; }

 private:
  int fresh();
  void resize_up(int index);
  void renew();
  std::int64_t score(const OrientedType& shape, int index, Join join) const;
  int copy_into(Slice& slice, int index) const;
  void gather(int index, std::vector<int>& types, std::vector<int>& freed);

  int width_, height_;
  int root_ = -1;
  int leaves_ = 0;
  std::int64_t filled_ = 0;
  std::vector<Node> nodes_;
  std::vector<int> free_;
  std::vector<int> live_; // parents first
  mutable std::int64_t looked_ = 0;
};

template <typename Look>
bool Elastic::best_place(const OrientedType& shape, Insertion& best, Look look) const {
  bool found = false;
  if (root_ < 0) {
    if (shape.width > width_ || shape.height > height_) return false;
    // Opening a sheet is the last resort, and better for the larger piece.
    const std::int64_t score = std::int64_t{width_} * height_;
    if (best.node == -2 || score < best.score) {
      best = {-1, Join::Beside, score};
      return true;
    }
    return false;
  }
  looked_ += live_count();
  for (const int index : live_) {
    const Node& n = nodes_[static_cast<std::size_t>(index)];
    if (shape.width > n.room_width || shape.height > n.room_height) continue;
    for (const Join join : {Join::Beside, Join::Above}) {
      const bool fits = join == Join::Beside ? n.width + shape.width <= n.room_width
                                             : n.height + shape.height <= n.room_height;
      if (!fits || !look()) continue;
      const std::int64_t value = score(shape, index, join);
      if (best.node == -2 || value < best.score) {
        best = {index, join, value};
        found = true;
      }
    }
  }
  return found;
}

} // namespace leafwright::cut
