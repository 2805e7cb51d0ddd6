#pragma once

#include "plan/supply/buying.h"

#include <cstdint>
#include <map>
#include <vector>

// The steps from the contents of kits to a basket, shared by the exact list and the quick cost.
// Inside this room.

namespace leafwright::supply {

// The contents of all kits added up.
struct RunTotals {
  std::vector<std::int64_t> sheets_given; // by stock: whole sheets of its first size
  std::vector<std::int64_t> packs_given;  // by pack: unopened
  struct Item {
    std::int64_t packs = 0, pieces = 0;
    std::vector<RibbonCut> lengths;
    Length length{};
    Mass mass{};
    Area area{};
  };
  std::map<std::pair<ItemKind, int>, Item> items; // all but stocks and packs
};
RunTotals totals_of(const Project& project, const std::vector<KitContents>& kit_items,
                    std::span<const int> kits);

// Sheets that are cut, by stock and first offer of the size.
using SheetCounts = std::map<std::pair<int, int>, std::int64_t>;

struct Basket {
  std::vector<BuyingLine> lines;
  std::vector<Purchase> purchases;
  Money total;
  std::vector<ItemRef> unpriced;
  bool least_cost = true;
  Findings findings;
};
// Rows and purchases of stocks and packs.
void fill_paper(const Project& project, const RunTotals& totals, const SheetCounts& cut,
                Basket& basket);
// Nothing when no pack is bought.
void purchase(Basket& basket, ItemRef item, int offer, std::int64_t packs, std::int64_t per_pack,
              const std::optional<Money>& price);
// Whole things of the kind.
std::int64_t in_hand(const Project& project, ItemRef item);
std::int64_t rounded_up(std::int64_t a, std::int64_t b); // a / b; a when b is nothing
Basket fill_basket(const Project& project, const RunTotals& totals, const SheetCounts& cut);

// Shares of packs that do not add up to whole packs.
Findings stranded_shares(const Project& project, std::span<const KitKind> kinds,
                         const std::vector<Purchase>& purchases);

std::vector<KitContents> contents_of_tiers(const Project& project);

} // namespace leafwright::supply
