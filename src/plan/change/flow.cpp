#include "plan/change/flow.h"

#include "measure/index.h"

#include <algorithm>
#include <limits>

namespace leafwright::change {

namespace {

struct Edge {
  int to = 0;
  std::int64_t room = 0;
  std::int64_t gain = 0;
  int back = 0; // index of the edge that gives it back
};

class Network {
 public:
  explicit Network(std::size_t nodes) : from_(nodes) {}

  int join(int a, int b, std::int64_t room, std::int64_t gain) {
    const int there = static_cast<int>(edges_.size());
    edges_.push_back({b, room, gain, there + 1});
    edges_.push_back({a, 0, -gain, there});
    from_[as_index(a)].push_back(there);
    from_[as_index(b)].push_back(there + 1);
    return there;
  }

  // Pushes along the best path from 0 to 1; false when none gains.
  bool push() {
    constexpr std::int64_t never = std::numeric_limits<std::int64_t>::min();
    std::vector<std::int64_t> best(from_.size(), never);
    std::vector<int> by(from_.size(), -1);
    best[0] = 0;
    // Bellman and Ford: giving back makes gains negative.
    for (std::size_t round = 0; round < from_.size(); ++round) {
      bool better = false;
      for (std::size_t a = 0; a < from_.size(); ++a) {
        if (best[a] == never) continue;
        for (const int e : from_[a]) {
          const Edge& edge = edges_[as_index(e)];
          const auto to = as_index(edge.to);
          if (edge.room <= 0 || best[a] + edge.gain <= best[to]) continue;
          best[to] = best[a] + edge.gain;
          by[to] = e;
          better = true;
        }
      }
      if (!better) break;
    }
    if (best[1] == never || best[1] <= 0) return false;
    std::int64_t room = std::numeric_limits<std::int64_t>::max();
    for (int at = 1; at != 0; at = origin(by[as_index(at)]))
      room = std::min(room, edge(by[as_index(at)]).room);
    for (int at = 1; at != 0;) {
      const int e = by[as_index(at)];
      edge(e).room -= room;
      edge(edge(e).back).room += room;
      at = origin(e);
    }
    return true;
  }

  std::int64_t taken(int e) { return edge(edge(e).back).room; }

 private:
  Edge& edge(int e) { return edges_[as_index(e)]; }
  int origin(int e) { return edge(edge(e).back).to; }

  std::vector<std::vector<int>> from_;
  std::vector<Edge> edges_;
};

} // namespace

std::vector<std::int64_t> share_piles(const std::vector<std::int64_t>& piles,
                                      const std::vector<std::int64_t>& wants,
                                      const std::vector<Arc>& arcs) {
  Network network(2 + piles.size() + wants.size());
  const auto pile_node = [](int pile) { return 2 + pile; };
  const auto want_node = [&](int want) { return 2 + static_cast<int>(piles.size()) + want; };
  for (std::size_t i = 0; i < piles.size(); ++i)
    network.join(0, pile_node(static_cast<int>(i)), piles[i], 0);
  for (std::size_t i = 0; i < wants.size(); ++i)
    network.join(want_node(static_cast<int>(i)), 1, wants[i], 0);
  std::vector<int> edges;
  for (const Arc& arc : arcs)
    edges.push_back(network.join(pile_node(arc.pile), want_node(arc.want),
                                 std::numeric_limits<std::int64_t>::max() / 4, arc.gain));
  while (network.push()) {
  }
  std::vector<std::int64_t> taken;
  for (const int e : edges) taken.push_back(network.taken(e));
  return taken;
}

} // namespace leafwright::change
