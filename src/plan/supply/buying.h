#pragma once

#include "plan/spool/spool.h"
#include "plan/supply/kits.h"
#include "plan/supply/needs.h"
#include "plan/supply/sheets.h"

#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <vector>

// What the whole run takes and what to buy for it: orders times contents, less what is in hand,
// rounded up to the packs that cost least.

namespace leafwright::supply {

// Kits by tier, as long as Project::tiers: those ordered; before there is an order, those that the
// run expects.
std::vector<int> planned_kits(const Project& project);

// One kind of pack in the basket. A pack that holds several stocks stands once.
struct Purchase {
  ItemRef item;   // Stock: sheet offer `offer` of it
  int offer = -1; // index into Stock::sheets
  std::int64_t packs = 0;
  std::int64_t per_pack =
      1; // sheets, pieces, spools, rolls in one; sheets of all stocks for a Pack
  std::optional<Money> price; // of one pack
  Money cost;                 // packs x price; nil when there is no price
};

// One item (of a stock: one sheet size) from need to rest. needed <= in_hand + bought always.
struct BuyingLine {
  enum class CountedIn { Sheets, Spools, Pieces, Rolls, Things };
  ItemRef item;
  int offer = -1; // Stock: the first offer of the sheet size
  Group group = Group::Cardstock;
  CountedIn unit = CountedIn::Sheets; // of the four counts below; a bottle of glue is a roll here
  std::int64_t needed = 0;
  std::int64_t in_hand = 0;
  std::int64_t bought = 0;
  std::int64_t left = 0; // in_hand + bought - needed: whole sheets, unopened spools, loose pieces
  // What is really used, where units are larger than that:
  Length length{}; // Ribbon, tape
  Mass mass{};     // glue
  Area area{};     // Stock: of pieces cut; adhesive sheets
  struct Offcut {
    Size size{};
    std::int64_t count = 0;
  };
  std::vector<Offcut> offcuts_left;    // Stock: both sides 2 in (50 mm) or more, largest first
  std::vector<RibbonCut> lengths_left; // Ribbon: rests of four inches or more, longest first
  std::optional<spool::Plan> spools;   // Ribbon: which cut comes from which spool
};

struct Buying {
  std::vector<int> kits; // by tier
  CuttingPlan sheets;
  std::vector<BuyingLine> lines;   // group after group, each in the order of the project's lists
  std::vector<Purchase> purchases; // in the same order
  Money total;
  std::optional<Money> at_least; // no cutting plan whatever buys for less; nothing: not known
  std::vector<ItemRef> unpriced; // bought, but without a price: not in `total`
  bool least_cost = true;        // the packs are proven to cost least for the sheets of the plan
  Findings findings;             // of shares, lengths, sheets and prices
};

// The exact list for these kinds of kit. `effort` is given to each stock's cutting plan; with
// SheetCount it is the list and its cost that are asked for, not how the sheets are cut.
Buying buying_for(const Project& project, std::span<const KitKind> kinds,
                  const cut::Effort& effort = {},
                  cut::Objective objective = cut::Objective::FewestSheets);

// The cost of a run as a function of its kits, cheap enough to be asked hundreds of times.
// Everything but paper is exact. Sheets are estimated: the area of the pieces over the share of a
// sheet that an exact plan of `reference` uses (planned kits, or one kit of every tier when none
// are planned), at least the bound by area. Ask buying_for() for the figure that is printed.
class RunCost {
 public:
  explicit RunCost(const Project& project, const cut::Effort& effort = {});
  // With the sheets of an exact list as the reference: nothing is planned again.
  RunCost(const Project& project, const CuttingPlan& reference);
  RunCost(RunCost&&) noexcept;
  RunCost& operator=(RunCost&&) noexcept;
  ~RunCost();

  Money operator()(std::span<const int> kits) const;

 private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

} // namespace leafwright::supply
