#pragma once

#include "plan/cut/internal/inside.h"
#include "plan/cut/internal/lister.h"
#include "plan/cut/internal/normal.h"
#include "plan/cut/internal/relax.h"
#include "plan/cut/internal/search.h"

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace leafwright::cut {

// How a dive turns fractional amounts into whole sheets.
struct DiveRule {
  bool floors_first = true;  // take all whole parts at once before single roundings
  double round_up = 1.1;     // then every pattern with at least this fraction, else the largest
  int rounds = 30;           // of column generation after each step
  std::uint64_t shuffle = 0; // 0: plain; else ties and near-ties are broken by this number
  bool tidy = false;         // a plan of equal cost with fewer patterns counts as better
  bool pack = true;          // let the local search try the last few sheets
  ProofEffort ending = {4000, 500, 200,
                        50'000'000}; // for settling the last sheets exactly; no entries: not tried
};

// Rounds, re-solves the rest with new patterns, rounds again, until everything is cut. Offers the
// plan to the search. Stops early when it cannot beat the best. Leaves the relaxation on the rest.
void dive(Search& search, Relaxation& relaxation, const DiveRule& rule);

struct SheetSize {
  int width = 0, height = 0;
};

// A fixed set of sheets to pack everything into.
struct RepackTask {
  std::span<const std::int64_t> demand; // per type; small numbers
  std::span<const int> stocks;          // one entry a sheet
  std::span<const Slice> start;       // patterns to begin with, for the first sheets; may be empty
  std::span<const SheetSize> sizes{}; // where a sheet is to be used in part; empty: as the stock
  std::uint64_t number = 1;           // which walk to take
  std::int64_t steps = 1'000'000;     // places looked at before giving up
};

// Work that one step is counted as.
constexpr std::int64_t step_work = 5;

struct RepackResult {
  std::vector<Slice> slices; // one a sheet; empty: did not succeed
  std::int64_t moves = 0;
};

// Local search: take some pieces out, put them back where they fit best, keep what does not get
// worse (ruin and recreate, Schrimpf et al. 2000, on elastic slicing trees; late acceptance, Burke
// and Bykov 2017).
RepackResult repack(const Normal& normal, const RepackTask& task, Budget& budget);

} // namespace leafwright::cut
