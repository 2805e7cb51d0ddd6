#include "plan/cut/internal/ruled.h"

#include "plan/cut/internal/finish.h"
#include "plan/cut/internal/rounding.h"

#include <algorithm>
#include <numeric>

namespace leafwright::cut {

namespace {

struct Box {
  int width = 0, height = 0;
};

// Tries the ways waste can be cut off or left to a neighbour, cheapest first, until one keeps the
// rules.
class Fitter {
 public:
  Fitter(const Normal& normal, const Slice& slice)
      : strip_x_(std::max(1, normal.strip_x)), strip_y_(std::max(1, normal.strip_y)),
        stages_(normal.stages), slice_(slice) {}

  std::optional<Slice> run(Box whole) {
    const int root = fit(whole, slice_.root(), -1, stages_);
    if (root < 0) return std::nullopt;
    // Nodes of abandoned tries lie between; copy what is reached.
    Slice result;
    copy(root, result);
    return result;
  }

 private:
  const SliceNode& node(int index) const { return slice_.nodes[static_cast<std::size_t>(index)]; }

  int copy(int index, Slice& to) const {
    const SliceNode& n = made_.nodes[static_cast<std::size_t>(index)];
    if (n.join == Join::Leaf) return to.leaf({n.width, n.height, n.type, n.turned});
    const int a = copy(n.a, to);
    const int b = copy(n.b, to);
    return to.join(n.join, a, b);
  }

  // Stages left after a cut in the direction, -1: none allowed.
  int stages_after(int direction, int came, int left) const {
    if (stages_ == 0 || direction == came) return left;
    return left - 1;
  }

  bool may_cut(int direction, int first, int rest) const {
    const int strip = direction == 0 ? strip_x_ : strip_y_;
    return first >= strip && rest >= strip;
  }

  int waste(Box box) { return made_.leaf({box.width, box.height, -1, false}); }

  // A part of the box's size that holds the node; -1: the rules do not let it.
  int fit(Box box, int index, int came, int left) {
    if (++tries_ > 20000) return -1;
    const SliceNode& n = node(index);
    const int over_x = box.width - n.width;
    const int over_y = box.height - n.height;
    if (over_x < 0 || over_y < 0) return -1;
    if (n.join == Join::Leaf && over_x == 0 && over_y == 0) {
      return made_.leaf({n.width, n.height, n.type, n.turned});
    }
    if (n.join != Join::Leaf) {
      const int direction = n.join == Join::Beside ? 0 : 1;
      const int row = along_row(box, n, direction, came, left);
      if (row >= 0) return row;
    }
    for (const int direction : {0, 1}) {
      const int over = direction == 0 ? over_x : over_y;
      const int kept = direction == 0 ? n.width : n.height;
      const int after = stages_after(direction, came, left);
      if (over == 0 || !may_cut(direction, kept, over) || after < 0) continue;
      const Box inner = direction == 0 ? Box{kept, box.height} : Box{box.width, kept};
      const Box outer = direction == 0 ? Box{over, box.height} : Box{box.width, over};
      const int held = fit(inner, index, direction, after);
      if (held >= 0) {
        return made_.join(direction == 0 ? Join::Beside : Join::Above, held, waste(outer));
      }
    }
    return -1;
  }

  // The node's own cut, what is over left to its second or its first part.
  int along_row(Box box, const SliceNode& n, int direction, int came, int left) {
    const int after = stages_after(direction, came, left);
    if (after < 0) return -1;
    const auto size = [&](int k) { return direction == 0 ? node(k).width : node(k).height; };
    const int whole = direction == 0 ? box.width : box.height;
    const int choices[] = {size(n.a), whole - size(n.b)};
    for (int k = 0; k < (choices[0] == choices[1] ? 1 : 2); ++k) {
      const int first = choices[k];
      if (!may_cut(direction, first, whole - first)) continue;
      const Box a = direction == 0 ? Box{first, box.height} : Box{box.width, first};
      const Box b = direction == 0 ? Box{whole - first, box.height} : Box{box.width, whole - first};
      const int made_a = fit(a, n.a, direction, after);
      if (made_a < 0) continue;
      const int made_b = fit(b, n.b, direction, after);
      if (made_b >= 0) return made_.join(n.join, made_a, made_b);
    }
    return -1;
  }

  int strip_x_, strip_y_, stages_;
  const Slice& slice_;
  Slice made_;
  int tries_ = 0;
};

} // namespace

std::optional<Slice> made_rigid(const Normal& normal, int stock, const Slice& slice) {
  if (slice.empty()) return std::nullopt;
  const StockSize& s = normal.stocks[static_cast<std::size_t>(stock)];
  const Slice ordered = in_order(slice);
  return Fitter(normal, ordered).run({s.width, s.height});
}

void propose_rigid(Search& search, std::uint64_t number) {
  constexpr std::int64_t most_pieces = 150;
  constexpr std::uint64_t walks = 24;
  const std::int64_t pieces =
      std::accumulate(search.demand.begin(), search.demand.end(), std::int64_t{0});
  const StockSize& stock = search.normal.stocks.front();
  if (search.normal.stocks.size() != 1 || pieces > most_pieces || stock.price <= 0) return;
  std::int64_t sheets = std::max<std::int64_t>(1, search.bound / stock.price);
  for (std::uint64_t k = 0; k < walks && !search.finished(); ++k) {
    // Mostly one sheet less than the best plan, now and then as many as it may take.
    const std::int64_t best = search.best_cost < 0 ? pieces : search.best_cost / stock.price;
    const std::int64_t count =
        std::clamp<std::int64_t>(k % 3 == 2 ? best : best - 1, sheets, pieces);
    if (stock.limit >= 0 && count > stock.limit) return;
    const std::vector<int> stocks(static_cast<std::size_t>(count), 0);
    RepackResult packed =
        repack(search.normal, {search.demand, stocks, {}, {}, number + k, 20'000}, search.budget);
    search.statistics.moves += packed.moves;
    Sheets plan;
    bool all = !packed.slices.empty();
    for (const Slice& slice : packed.slices) {
      if (slice.empty()) continue;
      std::optional<Slice> rigid = made_rigid(search.normal, 0, slice);
      all = all && rigid.has_value();
      if (!rigid) continue;
      Column column;
      column.counts = counts_of(*rigid);
      column.slice = std::move(*rigid);
      plan.emplace_back(search.pool.add(std::move(column)).first, 1);
    }
    if (all) search.offer(plan);
  }
}

} // namespace leafwright::cut
