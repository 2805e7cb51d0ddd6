#include "plan/fit/internal/thickness.h"

#include "measure/index.h"
#include "plan/fit/internal/cover.h"
#include "plan/fit/internal/slabs.h"

#include <algorithm>
#include <cstddef>

namespace leafwright::fit {

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
