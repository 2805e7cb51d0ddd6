#include "plan/cut/internal/finish.h"

#include <algorithm>

namespace leafwright::cut {

namespace {

struct Box {
  Length x = 0, y = 0, width = 0, height = 0; // blade included in width and height
};

struct Extent {
  Length width = 0, height = 0;
};

class Layer {
 public:
  Layer(const Job& job, const Normal& normal, const Slice& slice)
      : job_(job), normal_(normal), slice_(slice) {
    measure();
  }

  Pattern run(const StockSize& stock) {
    const SheetType& sheet = job_.sheets[static_cast<std::size_t>(stock.sheet)];
    pattern_.sheet = stock.sheet;
    const Length k = blade();
    sliver_ = std::min(sheet.width, sheet.height) / 8;
    part({0, 0, sheet.width + k, sheet.height + k});
    trim_edges();
    return std::move(pattern_);
  }

 private:
  Length blade() const { return job_.rules.blade; }

  void measure() {
    for (const SliceNode& node : slice_.nodes) {
      Extent size;
      if (node.join == Join::Leaf && node.type < 0) {
        size = {node.width * normal_.unit_x, node.height * normal_.unit_y};
      } else if (node.join == Join::Leaf) {
        const Type& type = normal_.types[static_cast<std::size_t>(node.type)];
        size = node.turned ? Extent{type.real_height, type.real_width}
                           : Extent{type.real_width, type.real_height};
      } else {
        const Extent& a = sizes_[static_cast<std::size_t>(node.a)];
        const Extent& b = sizes_[static_cast<std::size_t>(node.b)];
        size = node.join == Join::Beside ? Extent{a.width + b.width, std::max(a.height, b.height)}
                                         : Extent{std::max(a.width, b.width), a.height + b.height};
      }
      sizes_.push_back(size);
    }
  }

  // A new part, a leftover until it is said to be more; -1 where the blade leaves nothing.
  int part(const Box& box) {
    if (box.width <= blade() || box.height <= blade()) return -1;
    Part p;
    p.x = box.x;
    p.y = box.y;
    p.width = box.width - blade();
    p.height = box.height - blade();
    pattern_.parts.push_back(p);
    return static_cast<int>(pattern_.parts.size()) - 1;
  }

  Box box_of(int index) const {
    const Part& p = pattern_.parts[static_cast<std::size_t>(index)];
    return {p.x, p.y, p.width + blade(), p.height + blade()};
  }

  struct Two {
    int first = -1, second = -1;
  };

  // Cuts the part after `size` (blade included).
  Two cut(int index, Direction direction, Length size) {
    const Box whole = box_of(index);
    Box a = whole;
    Box b = whole;
    if (direction == Direction::Upright) {
      a.width = size;
      b.x += size;
      b.width -= size;
    } else {
      a.height = size;
      b.y += size;
      b.height -= size;
    }
    Two two;
    two.first = part(a);
    two.second = part(b);
    Part& p = pattern_.parts[static_cast<std::size_t>(index)];
    p.kind = PartKind::Cut;
    p.direction = direction;
    p.position = size - blade();
    p.first = two.first;
    p.second = two.second;
    return two;
  }

  void trim_edges() {
    const Trim& trim = job_.rules.trim;
    const auto margin = [&](Length m) { return m > 0 ? std::max(m, blade()) : 0; };
    int at = 0;
    if (trim.left > 0) at = cut(at, Direction::Upright, margin(trim.left)).second;
    if (trim.right > 0) {
      at = cut(at, Direction::Upright, box_of(at).width - margin(trim.right)).first;
    }
    if (trim.bottom > 0) at = cut(at, Direction::Level, margin(trim.bottom)).second;
    if (trim.top > 0) {
      at = cut(at, Direction::Level, box_of(at).height - margin(trim.top)).first;
    }
    if (!slice_.empty()) place(at, slice_.root());
  }

  // Whether waste is cut off before the node's own cuts, and in which direction. Waste along a row
  // of parts simply stays behind when the last is cut off, with no fence setting of its own.
  bool trims_first(int node_index, const Box& box, const Extent& need, Direction& first) const {
    const Join join = slice_.nodes[static_cast<std::size_t>(node_index)].join;
    const Length over_x = box.width - need.width;
    const Length over_y = box.height - need.height;
    if (over_x <= 0 && over_y <= 0) return false;
    // A sliver across the row may stay with its parts, if each leaves it behind in its own row.
    const Length across = join == Join::Beside ? over_y : over_x;
    if (join != Join::Leaf && across < sliver_ && leave_behind(node_index, join)) return false;
    if (over_x > 0 && over_y > 0) {
      const double upright = std::max(worth(over_x, box.height), worth(need.width, over_y));
      const double level = std::max(worth(box.width, over_y), worth(over_x, need.height));
      const bool prefer_upright = join == Join::Above || (join == Join::Leaf && over_x < over_y);
      first = upright > level || (upright == level && prefer_upright) ? Direction::Upright
                                                                      : Direction::Level;
      return true;
    }
    first = over_x > 0 ? Direction::Upright : Direction::Level;
    return over_x > 0 ? join != Join::Beside : join != Join::Above;
  }

  // Whether all parts of a row are rows the other way.
  bool leave_behind(int node_index, Join row) const {
    const SliceNode& node = slice_.nodes[static_cast<std::size_t>(node_index)];
    if (node.join == Join::Leaf) return false;
    if (node.join != row) return true;
    return leave_behind(node.a, row) && leave_behind(node.b, row);
  }

  // Area of a leftover that can be used again; a sliver is worth nothing.
  double worth(Length width, Length height) const {
    return std::min(width, height) < sliver_
               ? 0.0
               : static_cast<double>(width) * static_cast<double>(height);
  }

  void place(int index, int node_index) {
    if (index < 0) return; // waste that the blade takes whole
    const Extent need = sizes_[static_cast<std::size_t>(node_index)];
    const Box box = box_of(index);
    const SliceNode& node = slice_.nodes[static_cast<std::size_t>(node_index)];
    Direction first = Direction::Upright;
    if (trims_first(node_index, box, need, first)) {
      const Two two = first == Direction::Upright ? cut(index, Direction::Upright, need.width)
                                                  : cut(index, Direction::Level, need.height);
      place(two.first, node_index);
      return;
    }
    if (node.join == Join::Leaf) {
      if (node.type < 0) return;
      Part& p = pattern_.parts[static_cast<std::size_t>(index)];
      p.kind = PartKind::Piece;
      p.piece = node.type;
      p.turned = node.turned;
      return;
    }
    const Extent& a = sizes_[static_cast<std::size_t>(node.a)];
    const Two two = node.join == Join::Beside ? cut(index, Direction::Upright, a.width)
                                              : cut(index, Direction::Level, a.height);
    place(two.first, node.a);
    place(two.second, node.b);
  }

  const Job& job_;
  const Normal& normal_;
  const Slice& slice_;
  std::vector<Extent> sizes_; // per node, real lengths, blade included
  Pattern pattern_;
  Length sliver_ = 0;
};

// From types to the job's own pieces, in their order; false when a piece of some type ran out.
class Namer {
 public:
  Namer(const Job& job, const Normal& normal) : job_(job) {
    for (const Type& type : normal.types) left_.push_back(type.pieces);
  }

  // How many sheets of the pattern can be cut before one of its types changes the piece it stands
  // for.
  std::int64_t run_length(const Counts& counts, std::int64_t wished) const {
    std::int64_t run = wished;
    for (const auto& [type, copies] : counts) {
      const auto& queue = left_[static_cast<std::size_t>(type)];
      const std::int64_t first = queue.empty() ? 0 : queue.front().second;
      run = std::min(run, first / copies);
    }
    return std::max<std::int64_t>(1, run);
  }

  void name(Pattern& pattern) {
    for (Part& part : pattern.parts) {
      if (part.kind != PartKind::Piece) continue;
      auto& queue = left_[static_cast<std::size_t>(part.piece)];
      const int piece = queue.front().first;
      queue.front().second -= pattern.count;
      if (queue.front().second <= 0) queue.erase(queue.begin());
      const PieceType& p = job_.pieces[static_cast<std::size_t>(piece)];
      part.piece = piece;
      part.turned = p.width != part.width || p.height != part.height;
    }
  }

 private:
  const Job& job_;
  std::vector<std::vector<std::pair<int, std::int64_t>>> left_;
};

} // namespace

std::vector<Pattern> lay_out(const Job& job, const Normal& normal,
                             const std::vector<Batch>& batches) {
  std::vector<Pattern> result;
  Namer namer(job, normal);
  for (const Batch& batch : batches) {
    const Slice slice = in_order(batch.slice);
    const Counts counts = counts_of(slice);
    const Pattern drawn =
        Layer(job, normal, slice).run(normal.stocks[static_cast<std::size_t>(batch.stock)]);
    for (std::int64_t left = batch.count; left > 0;) {
      Pattern pattern = drawn;
      pattern.count = namer.run_length(counts, left);
      namer.name(pattern);
      left -= pattern.count;
      result.push_back(std::move(pattern));
    }
  }
  std::stable_sort(result.begin(), result.end(),
                   [](const Pattern& a, const Pattern& b) { return a.count > b.count; });
  return result;
}

} // namespace leafwright::cut
