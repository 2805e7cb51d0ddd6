#pragma once

#include "plan/change/refit.h"
#include "plan/supply/buying.h"

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

// The pieces on the table when an edition changes: which serve on, which can be trimmed, which are
// lost, what must be cut again, and from how many sheets.

namespace leafwright::change {

struct OnTable {
  // By letter of the old edition: how many are cut. Nothing: the whole old run is, and what its
  // plan leaves over lies ready as offcuts.
  std::optional<std::map<std::string, std::int64_t>> cut;
};

// So many of one old pile become pieces of one new line.
struct Use {
  int old_line = -1, new_line = -1;
  std::int64_t count = 0;
  Refit how;
};

struct Pile { // one line of the old cut list
  int old_line = -1;
  int new_line = -1; // of the same piece of the same card; -1: it is gone
  std::int64_t cut = 0, good = 0, trimmed = 0;
  std::int64_t spare = 0; // good for its own piece, but more than are needed now
  std::int64_t lost = 0;
  Refit own; // what it would be for its own piece
};
struct Wanted { // one line of the new cut list
  int new_line = -1;
  std::int64_t needed = 0, good = 0, trimmed = 0, to_cut = 0;
};

struct TableVerdict {
  std::vector<Pile> piles;    // in the order of the old cut list, only what was cut
  std::vector<Wanted> wanted; // in the order of the new cut list, only what is needed
  std::vector<Use> uses;      // pile after pile
  supply::RunSheets old_run;  // Pile::old_line points into its lines
  supply::RunSheets to_cut;   // the pieces to cut, laid on sheets; new_line points into its lines
  std::int64_t good = 0, trimmed = 0, spare = 0, lost = 0, recut = 0;
  std::int64_t sheets = 0, offcuts = 0; // that the recutting takes
  std::vector<std::string> unknown;     // letters in OnTable::cut that no piece has
};

// As many square inches of wanted pieces as can be are served from the piles; then as few pieces as
// can be are trimmed; then each pile serves its own piece. Lost rectangles count among the offcuts.
TableVerdict judge(const Project& before, const supply::Buying& bought_before, const Project& after,
                   const supply::Buying& bought_after, const OnTable& table,
                   const cut::Effort& effort = {});

} // namespace leafwright::change
