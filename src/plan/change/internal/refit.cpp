#include "plan/change/internal/share_piles.h"

#include "measure/index.h"
#include "plan/change/compare.h"

#include <algorithm>
#include <limits>
#include <optional>

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
    if (best[1] <= 0) return false; // or never reached
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

CutState cut_state(const Project& project, const supply::CutLine& line) {
  CutState state;
  const Stock& stock = project.stocks.at(as_index(line.stock));
  if (line.piece.card < 0) { // a share of a sheet
    state.size = state.blank = line.rectangle;
    state.orientation =
        stock.upright ? supply::SheetOrientation::Upright : supply::SheetOrientation::Either;
    return state;
  }
  const Piece& piece =
      project.cards.at(as_index(line.piece.card)).pieces.at(as_index(line.piece.piece));
  state.size = piece.size;
  state.shape = piece.shape;
  state.blank = line.rectangle;
  state.scores = piece.scores;
  state.windows = piece.windows;
  state.orientation = supply::sheet_orientation(stock, piece);
  return state;
}

bool same_paper(const Stock& a, const Stock& b) {
  return a.kind == b.kind && a.grammage == b.grammage && a.colour == b.colour &&
         a.pattern == b.pattern &&
         (a.pattern == Stock::Pattern::Plain || (a.figure == b.figure && a.repeat == b.repeat));
}

namespace {

bool plain_outline(const Shape& shape) {
  return shape.outline == Shape::Outline::Rectangle && shape.edge == Shape::Edge::Plain;
}

CutState turned(const CutState& state) {
  CutState out = state;
  out.size = state.size.turned();
  out.blank = state.blank.turned();
  for (Score& score : out.scores) {
    // The left edge comes to lie above: what ran upright at x runs across at x.
    if (!score.vertical) score.at = state.size.height - score.at;
    score.vertical = !score.vertical;
  }
  for (Window& window : out.windows) {
    window.at = {state.size.height - window.at.y - window.size.height, window.at.x};
    window.size = window.size.turned();
  }
  return out;
}

// Where along one axis the new piece may lie in the old one.
std::vector<Length> offsets(const CutState& have, const CutState& want, Size need, bool across) {
  const Length slack = across ? have.size.width - need.width : have.size.height - need.height;
  std::vector<Length> found{Length{}, slack};
  const auto try_offset = [&](Length d) {
    if (d >= Length{} && d <= slack && std::find(found.begin(), found.end(), d) == found.end())
      found.push_back(d);
  };
  for (const Score& old : have.scores)
    for (const Score& now : want.scores)
      if (old.vertical == across && now.vertical == across) try_offset(old.at - now.at);
  for (const Window& old : have.windows)
    for (const Window& now : want.windows)
      try_offset(across ? old.at.x - now.at.x : old.at.y - now.at.y);
  return found;
}

bool scores_fit(const CutState& have, const CutState& want, Size need, Point by, int& missing) {
  std::size_t met = 0;
  for (const Score& old : have.scores) {
    const Length at = old.at - (old.vertical ? by.x : by.y);
    const Length side = old.vertical ? need.width : need.height;
    if (at <= Length{} || at >= side) continue; // in what is cut off
    const bool wanted = std::any_of(want.scores.begin(), want.scores.end(), [&](const Score& now) {
      return now.vertical == old.vertical && now.at == at && now.mountain == old.mountain;
    });
    if (!wanted) return false;
    ++met;
  }
  missing = static_cast<int>(want.scores.size() - std::min(met, want.scores.size()));
  return true;
}

bool windows_fit(const CutState& have, const CutState& want, Size need, Point by, int& missing) {
  std::size_t met = 0;
  for (const Window& old : have.windows) {
    const Rect hole{old.at - by, old.size};
    if (!hole.overlaps({{}, need})) continue;
    bool wanted = false;
    for (const Window& now : want.windows) {
      const Rect opening{now.at, now.size};
      if (now.shape == old.shape && opening == hole) {
        wanted = true;
        ++met;
      } else if (plain_outline(now.shape) && opening.contains(hole)) {
        wanted = true; // to be cut larger
      }
      if (wanted) break;
    }
    if (!wanted) return false;
  }
  missing = static_cast<int>(want.windows.size() - std::min(met, want.windows.size()));
  return true;
}

Refit lost(Loss why) {
  Refit out;
  out.loss = why;
  return out;
}

// A die or scissors need some paper all round; less than the blank's own margin will do.
constexpr Length least_around{1'587'500}; // 1/16 in

// What of the old piece serves as a blank of the new one; its margin shrinks where the old is
// short.
Size blank_within(const CutState& have, const CutState& want) {
  const Size least{want.size.width + 2 * least_around, want.size.height + 2 * least_around};
  if (fits(want.blank, have.size) || !fits(least, have.size)) return want.blank;
  return {std::min(want.blank.width, have.size.width),
          std::min(want.blank.height, have.size.height)};
}

// What the old piece must still hold: a shaped piece needs room for its blank, unless its outline
// is cut already.
Refit as_it_lies(const CutState& have, const CutState& want) {
  const bool same_outline = have.shape == want.shape && have.size == want.size;
  const bool shaped = !plain_outline(have.shape);
  if (shaped && !same_outline) {
    const bool circles = have.shape.outline == Shape::Outline::Circle &&
                         want.shape.outline == Shape::Outline::Circle;
    if (!circles) return lost(Loss::Outline);
  }
  const bool cut_out = !same_outline && !plain_outline(want.shape);
  const Size need = cut_out && !shaped ? blank_within(have, want) : want.size;
  Length around{};
  if (cut_out && !shaped && need != want.blank)
    around = std::min(need.width - want.size.width, need.height - want.size.height) / 2;
  Refit out;
  if (!fits(need, have.size)) {
    out.loss = Loss::TooSmall;
    out.narrow = std::max(need.width - have.size.width, Length{});
    out.low = std::max(need.height - have.size.height, Length{});
    return out;
  }
  std::optional<Refit> best;
  int best_cuts = 0;
  bool folds_fit = false;
  for (const Length dx : offsets(have, want, need, true))
    for (const Length dy : offsets(have, want, need, false)) {
      Refit now;
      const Point by{dx, dy};
      if (!scores_fit(have, want, need, by, now.new_scores)) continue;
      folds_fit = true;
      if (!windows_fit(have, want, need, by, now.new_windows)) continue;
      now.left = dx;
      now.top = dy;
      now.right = have.size.width - need.width - dx;
      now.bottom = have.size.height - need.height - dy;
      now.cut_out = cut_out;
      now.around = around;
      now.fate = same_outline || (need == have.size && !cut_out) ? Fate::Good : Fate::Trim;
      const int cuts = (now.left.nm > 0) + (now.top.nm > 0) + (now.right.nm > 0) +
                       (now.bottom.nm > 0) + 4 * (now.new_scores + now.new_windows);
      if (best && cuts >= best_cuts) continue;
      best = now;
      best_cuts = cuts;
    }
  if (best) return *best;
  return lost(folds_fit ? Loss::Opening : Loss::Fold);
}

} // namespace

Refit refit(const CutState& have, const CutState& want) {
  const Refit upright = as_it_lies(have, want);
  const bool may_turn = have.orientation == supply::SheetOrientation::Either &&
                        want.orientation == supply::SheetOrientation::Either;
  if (upright.fate == Fate::Good || !may_turn) return upright;
  Refit other = as_it_lies(turned(have), want);
  other.turned = true;
  return other.fate < upright.fate ? other : upright;
}

} // namespace leafwright::change
