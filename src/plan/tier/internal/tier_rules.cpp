#include "plan/tier/internal/tier_rules.h"

#include "language/agreement.h"
#include "language/words.h"
#include "measure/index.h"
#include "measure/print_length.h"
#include "model/item.h"
#include "plan/supply/needs.h"
#include "plan/tier/value.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace leafwright::tiers {

namespace {

using Key = std::pair<ItemKind, int>;
using Quantities = std::map<Key, std::int64_t>;

// What a kit comes to for someone who cuts for herself: parts as the sheets they are cut from.
Quantities quantities_of(const Project& project, const Tier& tier) {
  Tier uncut = tier;
  uncut.parts_cut = false;
  Quantities sums;
  for (const supply::KitItem& taking : supply::kit_contents_of(project, uncut).kit_items)
    sums[{taking.item.kind, taking.item.index}] += quantity_of(project, taking);
  return sums;
}

bool holds(const Tier& tier, ItemKind kind) {
  return std::any_of(tier.includes.begin(), tier.includes.end(),
                     [&](const Inclusion& one) { return one.item.kind == kind; });
}

Money price_with_postage(const Tier& tier) {
  Money price = *tier.price;
  if (tier.shipping == Tier::Shipping::Charged && tier.shipping_charge)
    price = price + *tier.shipping_charge;
  return price;
}

struct Shopping {
  Money cost;
  std::vector<std::string> names;
};

// What must be bought beside `less` to have all that `more` gives; nothing when some of it is in no
// shop. Papers that come in one pack together are bought together.
std::optional<Shopping> shopping_for(const Project& project, const Tier& less,
                                     const Quantities& has, const Tier& more,
                                     const Quantities& wanted) {
  if (holds(more, ItemKind::Tutorial) && !holds(less, ItemKind::Tutorial)) return std::nullopt;
  Shopping shopping{{0, project.currency}, {}};
  std::map<int, std::int64_t> packs; // of several papers: how many
  for (const auto& [key, quantity] : wanted) {
    const auto found = has.find(key);
    const std::int64_t lacking = quantity - (found == has.end() ? 0 : found->second);
    if (lacking <= 0) continue;
    const ItemRef item{key.first, key.second};
    const std::optional<ShopPrice> price = shop_price(project, item);
    if (!price) return std::nullopt;
    shopping.names.push_back(item_name(project, item));
    const Stock* stock =
        item.kind == ItemKind::Stock ? &project.stocks.at(as_index(item.index)) : nullptr;
    if (!stock || stock->sheets.front().sold.price) {
      shopping.cost = shopping.cost + packs_price(*price, lacking);
      continue;
    }
    for (std::size_t p = 0; p < project.packs.size(); ++p)
      for (const Pack::Line& line : project.packs[p].lines)
        if (line.stock == item.index && project.packs[p].price) {
          const std::int64_t in_one = area(stock->sheets.front().size).um2 * line.sheets;
          std::int64_t& times = packs[static_cast<int>(p)];
          times = std::max(times, (lacking - 1) / std::max<std::int64_t>(in_one, 1) + 1);
        }
  }
  for (const auto& [pack, times] : packs)
    shopping.cost = shopping.cost + *project.packs.at(as_index(pack)).price * times;
  // What only the cheaper tier asks the buyer to own, she must have as well.
  for (const Requirement& asked : less.requires_owned) {
    const bool met =
        std::any_of(more.requires_owned.begin(), more.requires_owned.end(),
                    [&](const Requirement& also) { return also.any_of == asked.any_of; }) ||
        std::any_of(asked.any_of.begin(), asked.any_of.end(), [&](ItemRef item) {
          return wanted.contains({item.kind, item.index});
        });
    if (met) continue;
    std::optional<Money> least;
    for (const ItemRef item : asked.any_of)
      if (const auto price = shop_price(project, item))
        if (!least || price->price.minor < least->minor) least = price->price;
    if (!least) return std::nullopt;
    shopping.cost = shopping.cost + *least;
  }
  return shopping;
}

std::string shopping_words(const Shopping& shopping) {
  if (shopping.names.empty()) return "";
  std::vector<std::string> names = shopping.names;
  if (names.size() > 4) {
    names.resize(3);
    names.push_back(fmt::format("{} more", shopping.names.size() - 3));
  }
  return fmt::format(" and {} from a shop ({})", shopping.cost, words::listed(names));
}

} // namespace

void shop_beats(const Facts& facts, Reporter& report) {
  const Project& project = facts.project;
  std::vector<Quantities> quantities;
  for (const Tier& tier : project.tiers) quantities.push_back(quantities_of(project, tier));
  for (std::size_t m = 0; m < project.tiers.size(); ++m) {
    const Tier& more = project.tiers[m];
    if (!more.price) continue;
    std::optional<Money> least;
    std::string words;
    for (std::size_t l = 0; l < project.tiers.size(); ++l) {
      const Tier& less = project.tiers[l];
      const bool open = less.audience == Tier::Audience::Anyone || less.audience == more.audience;
      if (l == m || !open || !less.price || less.price->minor >= more.price->minor) continue;
      const auto shopping = shopping_for(project, less, quantities[l], more, quantities[m]);
      if (!shopping) continue;
      const Money together = price_with_postage(less) + shopping->cost;
      if (together.minor >= price_with_postage(more).minor) continue;
      if (least && least->minor <= together.minor) continue;
      least = together;
      words = fmt::format("{} for {}{} come to {}", less.name, price_with_postage(less),
                          shopping_words(*shopping), together);
    }
    if (!least) continue;
    report(
        more.place,
        fmt::format("{} costs {} with postage, but {}", more.name, price_with_postage(more), words),
        "a dearer tier that is worth its price",
        fmt::format("ask at most {} for it, or put more into it",
                    *more.price - (price_with_postage(more) - *least)));
  }
}

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

} // namespace

void owns_included(const Facts& facts, Reporter& report) {
  for (const Tier& tier : facts.project.tiers)
    for (const Requirement& wanted : tier.requires_owned)
      for (const ItemRef item : wanted.any_of)
        if (holds(tier, item)) {
          const std::string name = item_name(facts.project, item);
          report(wanted.place,
                 fmt::format("{} asks the buyer to own {} and holds it", tier.name, name),
                 "one of the two",
                 fmt::format("delete the <own>, or leave {} out of the tier", name));
        }
}

// Dies that cut nothing but what comes cut.
void dies_for_ready(const Facts& facts, Reporter& report) {
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
      report(wanted.place,
             fmt::format("{} comes die-cut and asks the buyer to own {}", tier.name,
                         words::listed(names, "or")),
             "no die where none is used", "delete the <own>, or ready=\"die-cut\" of the tier");
    }
  }
}

void paper_short(const Facts& facts, Reporter& report) {
  const Project& project = facts.project;
  for (const Tier& tier : project.tiers) {
    std::vector<std::string> names;
    for (const supply::Shortfall& one : supply::shortfalls_of(project, tier))
      names.push_back(fmt::format("{} {} of {}", one.sheets, words::noun_for(one.sheets, "sheet"),
                                  item_name(project, {ItemKind::Stock, one.stock})));
    if (names.empty()) continue;
    report(tier.place,
           fmt::format("{} is short of {} for one kit", tier.name, words::listed(names)),
           "paper for all that is cut from it",
           "include more, or leave it so: the buyer's booklet lists what she adds");
  }
}

void parts_missing(const Facts& facts, Reporter& report) {
  const Project& project = facts.project;
  for (const Tier& tier : project.tiers) {
    const std::vector<int> cards = cards_of(project, tier);
    std::vector<std::string> names;
    bool dies = false;
    for (const supply::Need& need : supply::needs_of_set(project)) {
      if (!kind_row(need.item.kind).makes_the_card) continue;
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
    report(tier.place,
           fmt::format("the parts of {} need {}, and the tier neither holds {} nor asks for {}",
                       tier.name, words::listed(names), words::it_or_them(std::ssize(names)),
                       words::it_or_them(std::ssize(names))),
           "a kit that can be made up",
           std::string("<include> them, or say with <own> that the buyer has them") +
               (dies && tier.parts_cut ? "; ready=\"die-cut\" does without the dies" : ""));
  }
}

// Stamps, dies, inks and tools are whole however little they are used.
void as_needed_nothing(const Facts& facts, Reporter& report) {
  const supply::Needs needs = supply::needs_of_set(facts.project);
  for (const Tier& tier : facts.project.tiers)
    for (const Inclusion& one : tier.includes) {
      if (one.amount.kind != Amount::Kind::AsNeeded || one.item.index < 0 ||
          one.item.kind == ItemKind::Pack)
        continue;
      const supply::Need* need = supply::find(needs, one.item);
      const bool some = need && (!need->consumed || need->count > 0 || need->length > Length{} ||
                                 need->mass > Mass{} || need->area.um2 > 0);
      if (some) continue;
      const std::string name = item_name(facts.project, one.item);
      report(
          one.place,
          fmt::format("{} holds {} as needed, and no card is known to take any", tier.name, name),
          "an amount, or a step that uses it",
          need ? std::string("write amount=\"whole\" or a share: what a step uses is not measured")
               : fmt::format("write amount=\"whole\" or a share, or name {} in uses=\"…\"",
                             item_id(facts.project, one.item)));
    }
}

void choice_unpriced(const Facts& facts, Reporter& report) {
  for (const Tier& tier : facts.project.tiers)
    for (const SwapChoice& choice : tier.substitution.choices)
      if (!choice.value && !value_of(facts.project, choice.item, choice.amount))
        report(choice.place,
               fmt::format("{} is offered in exchange, but has no price",
                           item_name(facts.project, choice.item)),
               "a value to set against the credit", "write value=\"…\", or give the item a price");
}

} // namespace leafwright::tiers
