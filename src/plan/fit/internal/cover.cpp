#include "plan/fit/internal/cover.h"

#include "measure/index.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>

namespace leafwright::fit {

namespace {

// Sums over the cells between neighbouring coordinates; add to a range, ask for the greatest.
class Cells {
 public:
  explicit Cells(std::size_t count) : count_(std::max<std::size_t>(count, 1)), nodes_(4 * count_) {}

  void add(std::size_t from, std::size_t to, std::int64_t weight) {
    if (from < to) add(1, 0, count_, from, to, weight);
  }
  std::int64_t most() const { return nodes_[1].most; }
  std::size_t first_most() const {
    std::size_t node = 1, low = 0, high = count_;
    while (high - low > 1) {
      const std::size_t middle = (low + high) / 2;
      const bool left = nodes_[2 * node].most >= nodes_[2 * node + 1].most;
      node = 2 * node + (left ? 0 : 1);
      (left ? high : low) = middle;
    }
    return low;
  }

 private:
  struct Node {
    std::int64_t most = 0; // of the cells below, with `all` added
    std::int64_t all = 0;
  };

  void add(std::size_t node, std::size_t low, std::size_t high, std::size_t from, std::size_t to,
           std::int64_t weight) {
    if (to <= low || high <= from) return;
    if (from <= low && high <= to) {
      nodes_[node].most += weight;
      nodes_[node].all += weight;
      return;
    }
    const std::size_t middle = (low + high) / 2;
    add(2 * node, low, middle, from, to, weight);
    add(2 * node + 1, middle, high, from, to, weight);
    nodes_[node].most =
        std::max(nodes_[2 * node].most, nodes_[2 * node + 1].most) + nodes_[node].all;
  }

  std::size_t count_;
  std::vector<Node> nodes_;
};

struct Event {
  Length x{};
  std::size_t from = 0, to = 0; // cells
  std::int64_t weight = 0;
};

std::size_t index_of(const std::vector<Length>& sorted, Length value) {
  return as_index(std::lower_bound(sorted.begin(), sorted.end(), value) - sorted.begin());
}

struct Corner {
  double x = 0, z = 0;
};

double distance(Corner a, Corner b) { return std::hypot(b.x - a.x, b.z - a.z); }

// Whether b lies on or under the line from a to c.
bool under(Corner a, Corner b, Corner c) {
  return (b.x - a.x) * (c.z - a.z) - (b.z - a.z) * (c.x - a.x) >= 0;
}

} // namespace

Cover cover_of(const std::vector<Weighted>& boxes) {
  Cover cover;
  std::vector<Length> ys;
  for (const Weighted& item : boxes) {
    if (item.box.size.width.nm <= 0 || item.box.size.height.nm <= 0) continue;
    ys.push_back(item.box.top());
    ys.push_back(item.box.bottom());
  }
  if (ys.empty()) return cover;
  std::sort(ys.begin(), ys.end());
  ys.erase(std::unique(ys.begin(), ys.end()), ys.end());

  std::vector<Event> events;
  for (const Weighted& item : boxes) {
    if (item.box.size.width.nm <= 0 || item.box.size.height.nm <= 0) continue;
    const std::size_t from = index_of(ys, item.box.top()), to = index_of(ys, item.box.bottom());
    events.push_back({item.box.left(), from, to, item.weight.nm});
    events.push_back({item.box.right(), from, to, -item.weight.nm});
  }
  std::stable_sort(events.begin(), events.end(),
                   [](const Event& a, const Event& b) { return a.x < b.x; });

  Cells cells(ys.size() - 1);
  for (std::size_t i = 0; i < events.size();) {
    const Length x = events[i].x;
    for (; i < events.size() && events[i].x == x; ++i)
      cells.add(events[i].from, events[i].to, events[i].weight);
    if (i == events.size()) break;
    const Length next = events[i].x;
    const Length most{cells.most()};
    if (most > cover.most) {
      const std::size_t row = cells.first_most();
      cover.most = most;
      cover.at = {x + (next - x) / 2, ys.at(row) + (ys.at(row + 1) - ys.at(row)) / 2};
    }
    if (!cover.profile.empty() && cover.profile.back().most == most)
      cover.profile.back().to = next;
    else
      cover.profile.push_back({x, next, most});
  }
  return cover;
}

Length half_girth(const std::vector<Interval>& profile) {
  if (profile.empty()) return {};
  const auto mm = [](Length a) { return in_mm(a); };
  std::vector<Corner> hull; // of the upper side, from left to right
  const auto see = [&](Corner corner) {
    while (hull.size() >= 2 && under(hull[hull.size() - 2], hull.back(), corner)) hull.pop_back();
    hull.push_back(corner);
  };
  see({mm(profile.front().from), 0});
  for (const Interval& stretch : profile) {
    see({mm(stretch.from), mm(stretch.most)});
    see({mm(stretch.to), mm(stretch.most)});
  }
  see({mm(profile.back().to), 0});
  double thread = mm(profile.back().to) - mm(profile.front().from);
  for (std::size_t i = 1; i < hull.size(); ++i) thread += distance(hull[i - 1], hull[i]);
  // A billionth of a millimetre of rounding is not an excess.
  return {static_cast<std::int64_t>(std::ceil(thread / 2 * 1e6 - 1e-3))};
}

} // namespace leafwright::fit
