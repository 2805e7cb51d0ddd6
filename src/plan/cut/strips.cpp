#include "plan/cut/strips.h"

#include <algorithm>
#include <numeric>

namespace leafwright::cut {

namespace {

// One size as it is to lie: along the strip and across it.
struct Lying {
  Shape shape;
  int along = 0, across = 0;
  std::int64_t left = 0;
  double rank = 0;
};

struct Strip {
  Slice slice;
  int across = 0;
};

class Strips {
 public:
  Strips(const Normal& normal, int stock, std::span<const std::int64_t> demand, Draw& draw)
      : draw_(draw), upright_(draw.below(2) == 0) {
    const Stock& s = normal.stocks[static_cast<std::size_t>(stock)];
    along_ = upright_ ? s.height : s.width;
    across_ = upright_ ? s.width : s.height;
    const double unrest = 0.15 * draw.below(4);
    std::vector<std::vector<Lying>> ways(demand.size());
    for (const Shape& shape : normal.shapes[static_cast<std::size_t>(stock)]) {
      const auto type = static_cast<std::size_t>(shape.type);
      if (demand[type] <= 0) continue;
      Lying way;
      way.shape = shape;
      way.along = upright_ ? shape.height : shape.width;
      way.across = upright_ ? shape.width : shape.height;
      way.left = demand[type];
      ways[type].push_back(way);
    }
    for (std::vector<Lying>& of_type : ways) {
      if (of_type.empty()) continue;
      Lying way = of_type[static_cast<std::size_t>(draw.below(static_cast<int>(of_type.size())))];
      way.rank = -way.across * (1 + unrest * (draw.unit() - 0.5));
      sizes_.push_back(way);
    }
    std::stable_sort(sizes_.begin(), sizes_.end(),
                     [](const Lying& a, const Lying& b) { return a.rank < b.rank; });
  }

  std::vector<Slice> run(std::size_t sheets) {
    std::vector<Strip> strips;
    for (Lying& size : sizes_) {
      while (size.left > 0) strips.push_back(strip_of(size));
    }
    std::stable_sort(strips.begin(), strips.end(),
                     [](const Strip& a, const Strip& b) { return a.across > b.across; });
    std::vector<std::vector<const Strip*>> packed;
    std::vector<int> used;
    for (const Strip& strip : strips) {
      std::size_t k = 0;
      while (k < used.size() && used[k] + strip.across > across_) ++k;
      if (k == used.size()) {
        if (k == sheets) return {};
        packed.emplace_back();
        used.push_back(0);
      }
      packed[k].push_back(&strip);
      used[k] += strip.across;
    }
    std::vector<Slice> result;
    for (const auto& sheet : packed) result.push_back(stacked(sheet));
    return result;
  }

 private:
  Join row() const { return upright_ ? Join::Above : Join::Beside; }
  Join column() const { return upright_ ? Join::Beside : Join::Above; }

  // `stack` pieces across the strip, `times` such stacks along it.
  int block(Slice& slice, Lying& size, std::int64_t stack, std::int64_t times) const {
    int node = -1;
    for (std::int64_t k = 0; k < times && size.left > 0; ++k) {
      int one = -1;
      for (std::int64_t c = 0; c < stack && size.left > 0; ++c, --size.left) {
        one = slice.join(column(), one, slice.leaf(size.shape));
      }
      node = slice.join(row(), node, one);
    }
    return node;
  }

  Strip strip_of(Lying& first) {
    Strip strip;
    strip.across = first.across;
    int left = along_;
    const auto fill = [&](Lying& size, int node) {
      const std::int64_t stack = strip.across / size.across;
      if (stack < 1) return node; // wider than the strip
      const std::int64_t times =
          std::min<std::int64_t>(left / size.along, (size.left + stack - 1) / stack);
      if (times < 1) return node;
      left -= static_cast<int>(times) * size.along;
      const int more = block(strip.slice, size, stack, times);
      return strip.slice.join(row(), node, more);
    };
    int node = fill(first, -1);
    for (const bool same : {true, false}) {
      for (Lying& size : sizes_) {
        if (size.left > 0 && (size.across == strip.across) == same) node = fill(size, node);
      }
    }
    return strip;
  }

  Slice stacked(const std::vector<const Strip*>& strips) const {
    Slice result;
    int node = -1;
    for (const Strip* strip : strips) {
      const auto offset = static_cast<int>(result.nodes.size());
      for (SliceNode copy : strip->slice.nodes) {
        if (copy.a >= 0) copy.a += offset;
        if (copy.b >= 0) copy.b += offset;
        result.nodes.push_back(copy);
      }
      node = result.join(column(), node, result.root());
    }
    return result;
  }

  Draw& draw_;
  bool upright_;
  int along_ = 0, across_ = 0;
  std::vector<Lying> sizes_;
};

} // namespace

std::vector<Slice> in_strips(const Normal& normal, int stock, std::span<const std::int64_t> demand,
                             std::size_t sheets, Draw& draw) {
  return Strips(normal, stock, demand, draw).run(sheets);
}

} // namespace leafwright::cut
