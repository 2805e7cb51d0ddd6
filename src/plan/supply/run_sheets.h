#pragma once

#include "plan/supply/sheets.h"
#include "plan/supply/takings.h"
#include "plan/supply/work_order.h"

#include <cstdint>
#include <span>
#include <string>
#include <vector>

// The cutting of a whole run: the pieces of all kits, stock by stock, laid on the fewest sheets
// with straight cuts, offcuts in hand first.

namespace leafwright::supply {

// Sheets of one pattern and how a person cuts them.
struct RunPattern {
  SheetLayout
      layout; // Placed::line points into RunSheets::lines; moves carry the numbers of `work`
  bool offcut = false; // cut from an offcut in hand; layout.offer is -1 then
  WorkOrder work;
};

struct RunStock {
  int stock = -1;
  std::vector<RunPattern> patterns; // most sheets first, offcuts last
  std::vector<std::int64_t> sheets; // cut, by sheet size: index into Stock::sheets (the first offer
                                    // of that size)
  std::int64_t all_sheets = 0;      // offcuts not counted
  std::int64_t offcuts = 0;         // used of those in hand
  std::int64_t at_least = 0;        // proven; 0 where several sizes make it a matter of cost
  bool proven = false;              // no straight-cut plan is better
  std::string words;                // "12 sheets; no straight-cut plan can use fewer than 12"
  Area used{}, waste{};
  std::int64_t pieces = 0;
};

struct RunSheets {
  std::vector<CutLine> lines; // cut_list(), then the shares of sheets ("S1" ...), piece {-1, -1}
  std::vector<std::int64_t> wanted; // by line: promised to kits
  std::vector<std::int64_t> spare;  // by line: cut beyond that
  std::vector<RunStock> stocks;     // in the order of Project::stocks, only those that are cut
  Findings findings; // what cannot be cut, with the number that would make it possible
};

// `kits` by tier, as long as Project::tiers (missing ones are nil). The planner gets `effort` for
// each stock. `sheets_given[stock]` whole sheets of the first size leave the hand before any is
// cut.
RunSheets sheets_for_run(const Project& project, std::span<const int> kits,
                         const cut::Effort& effort = {});

} // namespace leafwright::supply
