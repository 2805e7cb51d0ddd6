#include "measure/format.h"
#include "measure/index.h"
#include "plan/tier/rules.h"
#include "plan/tier/value.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
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
  for (const supply::Taking& taking : supply::takings_of(project, uncut).takings)
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
  std::string names;
  const std::size_t shown = shopping.names.size() > 4 ? 3 : shopping.names.size();
  for (std::size_t i = 0; i < shown; ++i) names += (i > 0 ? ", " : "") + shopping.names[i];
  if (shown < shopping.names.size())
    names += fmt::format(" and {} more", shopping.names.size() - shown);
  return fmt::format(" and {} from a shop ({})", shopping.cost, names);
}

} // namespace

void shop_beats(const Facts& facts, Speaker& say) {
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
    say(more.place,
        fmt::format("{} costs {} with postage, but {}", more.name, price_with_postage(more), words),
        "a dearer tier that is worth its price",
        fmt::format("ask at most {} for it, or put more into it",
                    *more.price - (price_with_postage(more) - *least)));
  }
}

} // namespace leafwright::tiers
