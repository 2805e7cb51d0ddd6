#pragma once

#include "plan/supply/kit_contents.h"
#include "plan/supply/sheets.h"
#include "plan/supply/work_order.h"

#include <cstdint>
#include <span>
#include <string>
#include <vector>

// The cutting of a whole run: the pieces of all kits, stock by stock, laid on the fewest sheets
// with straight cuts, offcuts in hand first.

namespace leafwright::supply {

// All pieces of one size from one stock are cut alike, whichever card they go to, and counted out
// afterwards.
struct RunPiece {
  int stock = -1;
  Size size{}; // as held, pattern upright
  SheetOrientation orientation =
      SheetOrientation::Either; // Turned: it lies on the sheet by a quarter turn
  std::vector<int> lines;       // of RunSheets::lines
  std::string letters;          // "C", "C F"; "S1" for shares of sheets
  std::int64_t wanted = 0;      // promised to kits
  std::int64_t spare = 0;       // cut beyond that
};

// Sheets of one pattern and how a person cuts them.
struct RunPattern {
  SheetLayout
      layout; // Placed::line points into RunSheets::pieces; moves carry the numbers of `work`
  bool offcut = false; // cut from an offcut in hand; layout.offer is -1 then
  WorkOrder work;
};

struct RunStock {
  int stock = -1;
  std::vector<RunPattern> patterns; // most sheets first, offcuts last
  struct Sheets {
    int offer = -1; // the first offer of a sheet size
    std::int64_t count = 0;
  };
  std::vector<Sheets> sheets;  // cut, one entry for each size used
  std::int64_t all_sheets = 0; // of all sizes; offcuts not counted
  std::int64_t offcuts = 0;    // used of those in hand
  std::int64_t at_least = 0;   // sheets, proven; 0 where several sizes make it a matter of cost
  bool proven = false;         // no straight-cut plan is better
  std::string words;           // "12 sheets; no straight-cut plan can use fewer than 12"
  std::int64_t pieces = 0;     // cut, spare ones included
  Area used{}, waste{};        // offcuts included
};

struct RunSheets {
  std::vector<CutLine> lines; // cut_list(), then the shares of sheets, whose piece is {-1, -1}
  std::vector<std::int64_t> wanted; // by line: promised to kits
  std::vector<std::int64_t> spare;  // by line: cut beyond that
  std::vector<RunPiece> pieces;     // stock after stock, largest first
  std::vector<RunStock> stocks;     // in the order of Project::stocks, only those that are cut
  Findings findings; // what cannot be cut, with the number that would make it possible
};

// Kits by tier; missing tiers are nil. `takings` by tier. Pieces, not yet laid on sheets.
RunSheets pieces_of_run(const Project& project, const std::vector<KitContents>& kit_items,
                        std::span<const int> kits);
// Lays them on sheets. The planner gets `effort` for each stock. `given[stock]` whole sheets of the
// first size are handed out of those in hand before any is cut.
void lay_out(RunSheets& run, const Project& project, const std::vector<std::int64_t>& given,
             const cut::Effort& effort);

// Both at once.
RunSheets sheets_for_run(const Project& project, std::span<const int> kits,
                         const cut::Effort& effort = {});

// The first offer of each sheet size of a stock.
std::vector<int> sheet_sizes_of(const Stock& stock);

} // namespace leafwright::supply
