#include "guide/figure/internal/label_layout.h"

#include "measure/index.h"

#include <algorithm>
#include <cmath>
#include <deque>
#include <limits>
#include <numeric>

namespace leafwright::figure {

namespace {

constexpr double nearly = 1e-6; // a nanometre: what counts as touching

double cross(double ax, double ay, double bx, double by) { return ax * by - ay * bx; }

// Labels are small: no need for the care that std::hypot takes of overflow.
double distance(double x, double y) { return std::sqrt(x * x + y * y); }

double length_of(const LabelStroke& line) { return distance(line.x1 - line.x0, line.y1 - line.y0); }

// On which side of a line points lie, and how far; the length is worked out once for all of them.
class Side {
 public:
  explicit Side(const LabelStroke& line) : line_(line), length_(length_of(line)) {}
  // Signed distance of a point from the infinite line.
  double of(double x, double y) const {
    if (length_ < nearly) return distance(x - line_.x0, y - line_.y0);
    return cross(line_.x1 - line_.x0, line_.y1 - line_.y0, x - line_.x0, y - line_.y0) / length_;
  }

 private:
  const LabelStroke& line_;
  double length_;
};

// Whether two lines on one straight line share more than a point.
bool share_a_stretch(const LabelStroke& a, const LabelStroke& b) {
  const double length = length_of(a);
  if (length < nearly || length_of(b) < nearly) return false;
  const double ux = (a.x1 - a.x0) / length;
  const double uy = (a.y1 - a.y0) / length;
  const double p = (b.x0 - a.x0) * ux + (b.y0 - a.y0) * uy;
  const double q = (b.x1 - a.x0) * ux + (b.y1 - a.y0) * uy;
  return std::min(std::max(p, q), length) - std::max(std::min(p, q), 0.0) > nearly;
}

// A crossing that drawing practice tolerates: an extension line and a dimension line at right
// angles, or a leader line that leaves the object between dimension lines.
bool may_cross(const LabelStroke& a, const LabelStroke& b) {
  using Kind = LabelStroke::Kind;
  if (a.kind == Kind::Leader || b.kind == Kind::Leader) return a.kind != b.kind;
  const double along = (a.x1 - a.x0) * (b.x1 - b.x0) + (a.y1 - a.y0) * (b.y1 - b.y0);
  return a.kind != b.kind && std::abs(along) < nearly;
}

// A label that has not found room after so many pushes for each label seldom finds it later.
constexpr std::size_t patience = 3;

constexpr Box nowhere{std::numeric_limits<double>::max(), std::numeric_limits<double>::max(),
                      std::numeric_limits<double>::lowest(), std::numeric_limits<double>::lowest()};

Box reach_of(const Candidate& candidate) {
  constexpr double far = std::numeric_limits<double>::max();
  Box reach{far, far, -far, -far};
  for (const Box& box : candidate.boxes) reach = united(reach, box);
  for (const LabelStroke& line : candidate.lines)
    reach = united(reach, {std::min(line.x0, line.x1), std::min(line.y0, line.y1),
                           std::max(line.x0, line.x1), std::max(line.y0, line.y1)});
  return grown(reach, nearly);
}

// Chooses one candidate for each label; holds what has been chosen so far.
class Chooser {
 public:
  explicit Chooser(const std::vector<std::vector<Candidate>>& labels)
      : labels_(labels), chosen_(labels.size(), -1), weight_(labels.size(), 1.0),
        reach_(labels.size(), nowhere) {}

  std::vector<int> run(int rounds) {
    std::vector<std::size_t> order(labels_.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::vector<int> best;
    std::size_t most = 0;
    // Once more with those left over first, while that places more.
    for (int round = 0; round < rounds; ++round) {
      choose_all(std::vector<int>(labels_.size(), -1));
      std::deque<std::size_t> waiting;
      for (const std::size_t label : order)
        if (!take_free(label)) waiting.push_back(label);
      push_aside(std::move(waiting));
      const bool better = round == 0 || placed() > most;
      if (!better) break;
      most = placed();
      best = chosen_;
      if (most == labels_.size()) break;
      std::stable_partition(order.begin(), order.end(),
                            [&](std::size_t label) { return chosen_.at(label) < 0; });
    }
    choose_all(best);
    for (std::size_t label = 0; label < labels_.size(); ++label)
      if (chosen_.at(label) < 0) take_free(label, Crossings::Tolerated);
    for (int pass = 0; pass < 4 && improve(); ++pass) {
    }
    return chosen_;
  }

 private:
  const Candidate& candidate(std::size_t label, int index) const {
    return labels_.at(label).at(as_index(index));
  }

  void choose(std::size_t label, int index) {
    chosen_[label] = index;
    reach_[label] = index < 0 ? nowhere : candidate(label, index).reach;
  }
  void choose_all(const std::vector<int>& chosen) {
    for (std::size_t label = 0; label < chosen.size(); ++label) choose(label, chosen[label]);
  }
  bool blocks(std::size_t other, const Candidate& wanted,
              Crossings crossings = Crossings::None) const {
    return overlap(wanted.reach, reach_[other]) &&
           collide(wanted, candidate(other, chosen_[other]), crossings);
  }

  // The labels in the way of `wanted`. Given up, and incomplete, once there are more than `most`.
  std::vector<std::size_t> blockers(std::size_t label, const Candidate& wanted,
                                    std::size_t most) const {
    std::vector<std::size_t> found;
    for (std::size_t other = 0; other < labels_.size() && found.size() <= most; ++other)
      if (other != label && blocks(other, wanted)) found.push_back(other);
    return found;
  }

  struct Push {
    int pick = 0;
    std::vector<std::size_t> pushed;
  };
  // The candidate whose blockers weigh least. One that weighs as much as another found before is
  // left as soon as that is known: most are.
  Push lightest_push(std::size_t label) const {
    Push lightest;
    double least = std::numeric_limits<double>::max();
    const std::vector<Candidate>& choices = labels_.at(label);
    std::vector<std::size_t> blocking;
    for (std::size_t i = 0; i < choices.size(); ++i) {
      double weight = choices.at(i).cost * 0.01;
      blocking.clear();
      for (std::size_t other = 0; other < labels_.size() && weight < least; ++other) {
        if (other == label || !blocks(other, choices[i])) continue;
        weight += weight_.at(other);
        blocking.push_back(other);
      }
      if (weight >= least) continue;
      least = weight;
      lightest.pick = static_cast<int>(i);
      lightest.pushed.swap(blocking);
    }
    return lightest;
  }

  // Candidates of a label lie side by side: what blocked the last one is asked first.
  bool is_free(std::size_t label, const Candidate& wanted, Crossings crossings,
               std::size_t& blocker) const {
    if (blocker != label && blocks(blocker, wanted, crossings)) return false;
    for (std::size_t other = 0; other < labels_.size(); ++other)
      if (other != label && blocks(other, wanted, crossings)) {
        blocker = other;
        return false;
      }
    return true;
  }

  // The cheapest free candidate; they are sorted by cost.
  bool take_free(std::size_t label, Crossings crossings = Crossings::None) {
    const auto& choices = labels_.at(label);
    std::size_t blocker = label;
    for (std::size_t i = 0; i < choices.size(); ++i)
      if (is_free(label, choices[i], crossings, blocker)) {
        choose(label, static_cast<int>(i));
        return true;
      }
    return false;
  }

  std::size_t placed() const {
    return as_index(
        std::count_if(chosen_.begin(), chosen_.end(), [](int index) { return index >= 0; }));
  }

  void push_aside(std::deque<std::size_t> waiting) {
    std::vector<int> best = chosen_;
    std::size_t most = placed();
    std::size_t pushes = 12 * labels_.size(), idle = 0;
    while (!waiting.empty() && pushes-- > 0 && idle++ < patience * labels_.size()) {
      const std::size_t label = waiting.front();
      waiting.pop_front();
      if (labels_.at(label).empty()) continue;
      if (!take_free(label)) {
        const Push push = lightest_push(label);
        choose(label, push.pick);
        for (const std::size_t other : push.pushed) {
          choose(other, -1);
          weight_.at(other) += 1.0;
          waiting.push_back(other);
        }
        weight_.at(label) += 1.0;
      }
      if (placed() > most) {
        most = placed();
        best = chosen_;
        idle = 0;
      }
    }
    choose_all(best);
    for (std::size_t label = 0; label < labels_.size(); ++label)
      if (chosen_.at(label) < 0) take_free(label);
  }

  double cost_of(std::size_t label) const {
    return chosen_.at(label) < 0 ? 1000.0 : candidate(label, chosen_.at(label)).cost;
  }

  // One pass: a cheaper free place, or one that is blocked by a single label which can step aside
  // at less than what is gained.
  bool improve() {
    bool changed = false;
    for (std::size_t label = 0; label < labels_.size(); ++label) {
      const auto& choices = labels_.at(label);
      for (std::size_t i = 0; i < choices.size(); ++i) {
        const double gain = cost_of(label) - choices.at(i).cost;
        if (gain <= nearly) break;
        const auto blocking = blockers(label, choices.at(i), 1);
        if (blocking.size() > 1) continue;
        const int before = chosen_.at(label);
        choose(label, static_cast<int>(i));
        if (blocking.empty()) {
          changed = true;
          break;
        }
        const std::size_t other = blocking.front();
        const int other_before = chosen_.at(other);
        const double other_cost = cost_of(other);
        choose(other, -1);
        if (take_free(other) && cost_of(other) - other_cost < gain - nearly) {
          changed = true;
          break;
        }
        choose(other, other_before);
        choose(label, before);
      }
    }
    return changed;
  }

  const std::vector<std::vector<Candidate>>& labels_;
  std::vector<int> chosen_;
  std::vector<double> weight_;
  std::vector<Box> reach_; // of what is chosen, side by side: most tests end there
};

} // namespace

Box grown(Box box, double by) {
  return {box.left - by, box.top - by, box.right + by, box.bottom + by};
}

Box united(Box a, Box b) {
  return {std::min(a.left, b.left), std::min(a.top, b.top), std::max(a.right, b.right),
          std::max(a.bottom, b.bottom)};
}

bool overlap(const Box& a, const Box& b) {
  return a.left < b.right - nearly && b.left < a.right - nearly && a.top < b.bottom - nearly &&
         b.top < a.bottom - nearly;
}

bool inside(const Box& inner, const Box& outer) {
  return inner.left >= outer.left - nearly && inner.top >= outer.top - nearly &&
         inner.right <= outer.right + nearly && inner.bottom <= outer.bottom + nearly;
}

bool crosses(const LabelStroke& line, const Box& box) {
  // Clips the line to the box, a little smaller so that touching is free (Liang and Barsky 1984).
  const Box in = grown(box, -nearly);
  if (in.width() <= 0 || in.height() <= 0) return false;
  // Most lines are not even near.
  if (std::max(line.x0, line.x1) <= in.left || std::min(line.x0, line.x1) >= in.right ||
      std::max(line.y0, line.y1) <= in.top || std::min(line.y0, line.y1) >= in.bottom)
    return false;
  double enter = 0.0;
  double leave = 1.0;
  const auto clip = [&](double start, double delta, double low, double high) {
    if (std::abs(delta) < 1e-12) return start > low && start < high;
    double t0 = (low - start) / delta;
    double t1 = (high - start) / delta;
    if (t0 > t1) std::swap(t0, t1);
    enter = std::max(enter, t0);
    leave = std::min(leave, t1);
    return enter < leave;
  };
  return clip(line.x0, line.x1 - line.x0, in.left, in.right) &&
         clip(line.y0, line.y1 - line.y0, in.top, in.bottom);
}

bool clash(const LabelStroke& a, const LabelStroke& b) {
  using Kind = LabelStroke::Kind;
  const bool both_extend = a.kind == Kind::Extension && b.kind == Kind::Extension;
  if (both_extend) return false;
  const auto apart = [](double a0, double a1, double b0, double b1) {
    return std::max(a0, a1) < std::min(b0, b1) - nearly ||
           std::max(b0, b1) < std::min(a0, a1) - nearly;
  };
  if (apart(a.x0, a.x1, b.x0, b.x1) || apart(a.y0, a.y1, b.y0, b.y1)) return false;
  const Side side_of_a(a);
  const double a0 = side_of_a.of(b.x0, b.y0);
  const double a1 = side_of_a.of(b.x1, b.y1);
  if (std::abs(a0) < nearly && std::abs(a1) < nearly) return share_a_stretch(a, b);
  const auto apart_by = [](double s, double t) {
    return (s > nearly && t < -nearly) || (s < -nearly && t > nearly);
  };
  if (!apart_by(a0, a1)) return false;
  const Side side_of_b(b);
  return apart_by(side_of_b.of(a.x0, a.y0), side_of_b.of(a.x1, a.y1));
}

bool collide(const Candidate& a, const Candidate& b, Crossings crossings) {
  if (!overlap(a.reach, b.reach)) return false;
  for (const Box& box : a.boxes) {
    for (const Box& other : b.boxes)
      if (overlap(box, other)) return true;
    for (const LabelStroke& line : b.lines)
      if (crosses(line, box)) return true;
  }
  for (const LabelStroke& line : a.lines) {
    for (const Box& box : b.boxes)
      if (crosses(line, box)) return true;
    for (const LabelStroke& other : b.lines) {
      if (crossings == Crossings::Tolerated && may_cross(line, other)) continue;
      if (clash(line, other)) return true;
    }
  }
  return false;
}

std::vector<int> choose_places(std::vector<std::vector<Candidate>>& labels, int rounds) {
  for (auto& choices : labels) {
    std::stable_sort(choices.begin(), choices.end(),
                     [](const Candidate& a, const Candidate& b) { return a.cost < b.cost; });
    for (Candidate& candidate : choices) candidate.reach = reach_of(candidate);
  }
  return Chooser(labels).run(rounds);
}

} // namespace leafwright::figure
