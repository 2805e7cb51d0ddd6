#pragma once

#include "plan/supply/buying.h"

#include <cstdint>
#include <map>
#include <vector>

// The steps from takings to a basket, shared by the exact list and the quick cost. Inside this
// room.

namespace leafwright::supply {

// Takings of all kits added up.
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
Basket fill_basket(const Project& project, const RunTotals& totals, const SheetCounts& cut);

// Shares of packs that do not add up to whole packs.
Findings stranded_shares(const Project& project, std::span<const KitKind> kinds);

std::vector<KitContents> all_takings(const Project& project);

} // namespace leafwright::supply
