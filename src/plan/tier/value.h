#pragma once

#include "model/project.h"
#include "plan/supply/kits.h"

#include <cstdint>
#include <optional>
#include <vector>

// What a tier's things cost in a shop, worked out from the prices of packs: never typed twice.

namespace leafwright::tiers {

// How much of its item a taking is, in the unit that an item is measured in here: stock and
// adhesive sheets in square micrometres, ribbon and tape in nanometres, glue in milligrams, the
// rest in pieces; packs given unopened as what they hold, Pack items in packs.
std::int64_t quantity_of(const Project& project, const supply::KitItem& taking);

// The price of one pack and what is in it, in the same unit. A stock without a price of its own is
// priced by its area in the first pack that holds it.
struct ShopPrice {
  Money price;
  std::int64_t quantity = 1;
};
std::optional<ShopPrice> shop_price(const Project& project, ItemRef item);

// A part of a pack at the price of the pack, to the nearest minor unit, halves up.
Money part_price(const ShopPrice& pack, std::int64_t quantity);
// As many whole packs as hold the quantity.
Money packs_price(const ShopPrice& pack, std::int64_t quantity);

// The tutorial is worth what the cheapest tier asks that holds nothing else and is open to anyone.
std::optional<Money> tutorial_value(const Project& project);

struct TierValue {
  struct Line { // one for each inclusion
    Money value;
    bool known = true; // everything in it has a price
    bool gift = false;
  };
  std::vector<Line> lines;
  Money total;                   // of all lines, gifts included
  Money gifts;                   // of the gifts
  std::vector<ItemRef> unpriced; // in no line's value
};
// Cut parts are worth the sheets that a buyer would have to cut them from. A value that the maker
// gives to an inclusion stands for it.
TierValue value_of(const Project& project, int tier);
TierValue value_of(const Project& project, const Tier& tier);

// The same for all orders of a run: each tier is worked out once, when it is first asked for.
class TierValues {
 public:
  explicit TierValues(const Project& project) : project_(project), known_(project.tiers.size()) {}

  const Project& project() const { return project_; }
  const TierValue& of(int tier); // an index of Project::tiers

 private:
  const Project& project_;
  std::vector<std::optional<TierValue>> known_;
};

// What an amount of an item costs in a shop, as a kit of its own would hold it; nothing without a
// price.
std::optional<Money> value_of(const Project& project, ItemRef item, const Amount& amount);

} // namespace leafwright::tiers
