#include "measure/index.h"
#include "plan/supply/needs.h"
#include "plan/supply/ready.h"
#include "plan/supply/shortfall.h"
#include "plan/tier/rules.h"
#include "plan/tier/value.h"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>

namespace leafwright::tiers {

namespace {

bool holds(const Tier& tier, ItemRef item) {
  return std::any_of(tier.includes.begin(), tier.includes.end(),
                     [&](const Inclusion& one) { return one.item == item; });
}

bool asks_for(const Tier& tier, ItemRef item) {
  return std::any_of(
      tier.requires_owned.begin(), tier.requires_owned.end(), [&](const Requirement& wanted) {
        return std::find(wanted.any_of.begin(), wanted.any_of.end(), item) != wanted.any_of.end();
      });
}

// A die without which one can do is needed by no piece.
bool die_is_needed(const Project& project, const std::vector<int>& cards, int die) {
  for (const int c : cards)
    for (const Piece& piece : project.cards.at(as_index(c)).pieces) {
      const bool cuts =
          piece.die == die || std::any_of(piece.windows.begin(), piece.windows.end(),
                                          [&](const Window& window) { return window.die == die; });
      if (cuts && piece.alternative.empty()) return true;
    }
  return false;
}

// Inks, adhesives and tools are what a maker has at home; the rest makes the card what it is.
bool belongs_in_a_kit(ItemKind kind) {
  switch (kind) {
  case ItemKind::StampSet:
  case ItemKind::Die:
  case ItemKind::Ribbon:
  case ItemKind::Embellishment:
  case ItemKind::Envelope: return true;
  case ItemKind::Stock:
  case ItemKind::Pack:
  case ItemKind::Ink:
  case ItemKind::Adhesive:
  case ItemKind::Tool:
  case ItemKind::Tutorial:
  case ItemKind::Parts: break;
  }
  return false;
}

std::vector<int> cards_of(const Project& project, const Tier& tier) {
  std::vector<int> cards;
  for (const Inclusion& one : tier.includes) {
    if (one.item.kind != ItemKind::Parts) continue;
    for (std::size_t c = 0; c < project.cards.size(); ++c) {
      const int card = static_cast<int>(c);
      const bool meant = one.cards.empty() ||
                         std::find(one.cards.begin(), one.cards.end(), card) != one.cards.end();
      if (meant && std::find(cards.begin(), cards.end(), card) == cards.end())
        cards.push_back(card);
    }
  }
  return cards;
}

std::string listed(const std::vector<std::string>& names, std::string_view joint = " and ") {
  std::string out;
  for (std::size_t i = 0; i < names.size(); ++i)
    out += std::string(i == 0 ? "" : i + 1 == names.size() ? joint : ", ") + names[i];
  return out;
}

} // namespace

void owns_included(const Facts& facts, Speaker& say) {
  for (const Tier& tier : facts.project.tiers)
    for (const Requirement& wanted : tier.requires_owned)
      for (const ItemRef item : wanted.any_of)
        if (holds(tier, item)) {
          const std::string name = item_name(facts.project, item);
          say(wanted.place,
              fmt::format("{} asks the buyer to own {} and holds it", tier.name, name),
              "one of the two", fmt::format("delete the <own>, or leave {} out of the tier", name));
        }
}

// Dies that cut nothing but what comes cut.
void dies_for_ready(const Facts& facts, Speaker& say) {
  const Project& project = facts.project;
  for (const Tier& tier : project.tiers) {
    if (!tier.die_cut || tier.requires_owned.empty()) continue;
    const supply::Needs left = supply::needs_beside_parts(project, tier);
    for (const Requirement& wanted : tier.requires_owned) {
      const bool only_such = std::ranges::all_of(wanted.any_of, [&](ItemRef item) {
        return item.kind == ItemKind::Die && supply::find(left, item) == nullptr;
      });
      if (!only_such) continue;
      std::vector<std::string> names;
      for (const ItemRef item : wanted.any_of) names.push_back(item_name(project, item));
      say(wanted.place,
          fmt::format("{} comes die-cut and asks the buyer to own {}", tier.name,
                      listed(names, " or ")),
          "no die where none is used", "delete the <own>, or ready=\"die-cut\" of the tier");
    }
  }
}

void paper_short(const Facts& facts, Speaker& say) {
  const Project& project = facts.project;
  for (const Tier& tier : project.tiers) {
    std::vector<std::string> names;
    for (const supply::Shortfall& one : supply::shortfalls_of(project, tier))
      names.push_back(fmt::format("{} {} of {}", one.sheets, one.sheets == 1 ? "sheet" : "sheets",
                                  item_name(project, {ItemKind::Stock, one.stock})));
    if (names.empty()) continue;
    say(tier.place, fmt::format("{} is short of {} for one kit", tier.name, listed(names)),
        "paper for all that is cut from it",
        "include more, or leave it so: the buyer's booklet lists what is hers to add");
  }
}

void parts_missing(const Facts& facts, Speaker& say) {
  const Project& project = facts.project;
  for (const Tier& tier : project.tiers) {
    const std::vector<int> cards = cards_of(project, tier);
    std::vector<std::string> names;
    bool dies = false;
    for (const supply::Need& need : supply::needs_of_set(project)) {
      if (!belongs_in_a_kit(need.item.kind)) continue;
      const bool used = std::any_of(need.cards.begin(), need.cards.end(), [&](int card) {
        return std::find(cards.begin(), cards.end(), card) != cards.end();
      });
      if (!used || holds(tier, need.item) || asks_for(tier, need.item)) continue;
      const bool die = need.item.kind == ItemKind::Die;
      if (die && (tier.die_cut || !die_is_needed(project, cards, need.item.index))) continue;
      if (need.item.kind == ItemKind::StampSet && tier.stamped) continue;
      names.push_back(item_name(project, need.item));
      dies = dies || die;
    }
    if (names.empty()) continue;
    say(tier.place,
        fmt::format("the parts of {} need {}, and the tier neither holds {} nor asks for {}",
                    tier.name, listed(names), names.size() == 1 ? "it" : "them",
                    names.size() == 1 ? "it" : "them"),
        "a kit that can be made up",
        std::string("<include> them, or say with <own> that the buyer has them") +
            (dies && tier.parts_cut ? "; ready=\"die-cut\" does without the dies" : ""));
  }
}

void choice_unpriced(const Facts& facts, Speaker& say) {
  for (const Tier& tier : facts.project.tiers)
    for (const SwapChoice& choice : tier.substitution.choices)
      if (!choice.value && !value_of(facts.project, choice.item, choice.amount))
        say(choice.place,
            fmt::format("{} is offered in exchange, but has no price",
                        item_name(facts.project, choice.item)),
            "a value to set against the credit", "write value=\"…\", or give the item a price");
}

} // namespace leafwright::tiers
