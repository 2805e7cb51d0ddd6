#include "plan/supply/ready.h"

#include "measure/index.h"

#include <algorithm>

namespace leafwright::supply {

namespace {

// The piece as it is to one who opens its envelope.
void take_from(Piece& piece, const PartsReady& ready) {
  if (ready.die_cut) {
    if (piece.cut == Piece::CutBy::Die) piece.cut = Piece::CutBy::Trimmer;
    piece.die = -1;
    std::erase_if(piece.windows, [](const Window& window) { return window.die >= 0; });
  }
  if (ready.stamped) piece.stamped.clear();
}

bool is_trimmer(const Project& project, ItemRef item) {
  return item.kind == ItemKind::Tool && item.index >= 0 &&
         as_index(item.index) < project.tools.size() &&
         project.tools[as_index(item.index)].cut_length > Length{};
}

} // namespace

PartsReady parts_ready(const Tier& tier, int card) {
  const bool comes = std::ranges::any_of(tier.includes, [card](const Inclusion& one) {
    return one.item.kind == ItemKind::Parts &&
           (one.cards.empty() || std::ranges::find(one.cards, card) != one.cards.end());
  });
  if (!comes || !tier.parts_cut) return {};
  return {true, tier.die_cut, tier.stamped};
}

bool cuts_with_a_die(const Project& project) {
  return std::ranges::any_of(project.cards, [](const Card& card) {
    return std::ranges::any_of(card.pieces, [](const Piece& piece) {
      return piece.cut == Piece::CutBy::Die ||
             std::ranges::any_of(piece.windows, [](const Window& one) { return one.die >= 0; });
    });
  });
}

Needs needs_beside_parts(const Project& project, const Tier& tier) {
  Project rest = project;
  for (std::size_t c = 0; c < rest.cards.size(); ++c) {
    const PartsReady ready = parts_ready(tier, static_cast<int>(c));
    for (Piece& piece : rest.cards[c].pieces) take_from(piece, ready);
  }
  Needs needs = needs_of_kit(rest);
  std::erase_if(needs, [&](const Need& need) {
    return is_trimmer(project, need.item) && !need.cards.empty() &&
           std::ranges::all_of(need.cards, [&](int card) { return parts_ready(tier, card).cut; });
  });
  return needs;
}

} // namespace leafwright::supply
