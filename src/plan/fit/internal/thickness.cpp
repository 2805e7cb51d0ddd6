#include "plan/fit/internal/thickness.h"

#include "measure/index.h"
#include "plan/fit/internal/cover.h"
#include "plan/fit/internal/slabs.h"

#include <algorithm>
#include <cstddef>

namespace leafwright::fit {

namespace {

// One direction of folding: the stretch between two neighbouring scores and its mapping.
struct Part {
  Length from{}, to{};
  int sign = 1;
  Length by{};
};

std::vector<Part> parts_along(const std::vector<Score>& scores, bool vertical, Length whole,
                              std::size_t fixed) {
  std::vector<Length> edges{Length{}};
  for (const Score& score : scores)
    if (score.vertical == vertical && score.at > Length{} && score.at < whole)
      edges.push_back(score.at);
  edges.push_back(whole);
  std::sort(edges.begin(), edges.end());
  edges.erase(std::unique(edges.begin(), edges.end()), edges.end());
  std::vector<Part> parts;
  for (std::size_t i = 0; i + 1 < edges.size(); ++i) parts.push_back({edges[i], edges[i + 1]});
  if (parts.empty()) return parts;
  // Reflect outwards from the leaf that stays: over the edge at X, x goes to 2 X - x first.
  fixed = std::min(fixed, parts.size() - 1);
  parts[fixed].by = -parts[fixed].from;
  const auto reflect = [&](std::size_t known, std::size_t next, Length edge) {
    parts[next].sign = -parts[known].sign;
    parts[next].by = parts[known].by + 2 * edge * parts[known].sign;
  };
  for (std::size_t i = fixed + 1; i < parts.size(); ++i) reflect(i - 1, i, parts[i].from);
  for (std::size_t i = fixed; i-- > 0;) reflect(i + 1, i, parts[i].to);
  return parts;
}

std::size_t fixed_leaf(Form::Kind kind) {
  switch (kind) {
  case Form::Kind::TopFold:
  case Form::Kind::SideFold:
  case Form::Kind::Tent:
  case Form::Kind::Gate:
  case Form::Kind::Accordion: return 1;
  case Form::Kind::Z: return 2;
  case Form::Kind::Flat:
  case Form::Kind::Tag:
  case Form::Kind::Custom: break;
  }
  return 0;
}

} // namespace

std::vector<Leaf> leaves_of(const Form& form, const FormPlan& plan) {
  const std::size_t fixed = fixed_leaf(form.kind);
  const std::vector<Part> across = parts_along(plan.scores, true, plan.unfolded.width, fixed);
  const std::vector<Part> down = parts_along(plan.scores, false, plan.unfolded.height, fixed);
  std::vector<Leaf> leaves;
  Point least; // a fold of its own may reach left of or above the leaf that stays
  for (const Part& y : down)
    for (const Part& x : across) {
      const Rect cell{{x.from, y.from}, {x.to - x.from, y.to - y.from}};
      leaves.push_back({cell, x.sign, y.sign, {x.by, y.by}});
      const Rect lies = folded(leaves.back(), cell);
      least = {std::min(least.x, lies.left()), std::min(least.y, lies.top())};
    }
  for (Leaf& leaf : leaves) leaf.by = leaf.by - least;
  return leaves;
}

Rect folded(const Leaf& leaf, Rect on_base) {
  const Length x = leaf.sign_x > 0 ? on_base.left() + leaf.by.x : leaf.by.x - on_base.right();
  const Length y = leaf.sign_y > 0 ? on_base.top() + leaf.by.y : leaf.by.y - on_base.bottom();
  return {{x, y}, on_base.size};
}

namespace {

constexpr Length noticeable = millimetres(1);

bool covers(const Rect& box, Point at) {
  return box.left() < at.x && at.x < box.right() && box.top() < at.y && at.y < box.bottom();
}

// Uncoated envelope papers take up about 1.25 cm3 to the gram (common practice): 1 g/m² is 1.25 um.
Length estimated_caliper(Grammage grammage) { return {grammage.mg_per_m2 * 5 / 4}; }

// Raised things alone, as thick as they get anywhere.
Length raised_most(const LayerStack& pile) {
  std::vector<Weighted> weights;
  for (const Slab& slab : pile.slabs)
    if (slab.raised) weights.push_back({slab.box, slab.thickness});
  return cover_of(weights).most;
}

} // namespace

Thickness thickness_of(const Project& project, const Card& card) {
  const LayerStack pile = pile_of(project, card);
  const Cover cover = cover_of(weights_of(pile));
  Thickness result;
  result.most = cover.most;
  result.at = cover.at;
  result.unknown = pile.unknown;
  result.rigid = pile.hard;
  result.uneven = raised_most(pile) > noticeable;
  for (const Slab& slab : pile.slabs) {
    const bool open = std::any_of(slab.openings.begin(), slab.openings.end(),
                                  [&](const Rect& o) { return covers(o, cover.at); });
    if (covers(slab.box, cover.at) && !open) result.layers.push_back({slab.words, slab.thickness});
  }
  return result;
}

Length thickness_in_envelope(const Project& project, const Card& card) {
  Length both_sides{};
  if (card.envelope >= 0 && as_index(card.envelope) < project.envelopes.size())
    both_sides = 2 * estimated_caliper(project.envelopes[as_index(card.envelope)].grammage);
  return thickness_of(project, card).most + both_sides;
}

} // namespace leafwright::fit
