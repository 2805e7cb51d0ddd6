#pragma once

#include "plan/cut/prove.h"
#include "plan/cut/relax.h"

#include <cstdint>

namespace leafwright::cut {

/// How a dive turns fractional amounts into whole sheets.
struct DiveRule {
  bool floors_first = true;  ///< take all whole parts at once before single roundings
  double round_up = 1.1;     ///< then every pattern with at least this fraction, else the largest
  int rounds = 30;           ///< of column generation after each step
  std::uint64_t shuffle = 0; ///< 0: plain; else ties and near-ties are broken by this number
  bool tidy = false;         ///< a plan of equal cost with fewer patterns counts as better
  bool pack = true;          ///< let the local search try the last few sheets
  ProofEffort ending = {
      4000, 500, 200, 50'000'000}; ///< for settling the last sheets exactly; no entries: not tried
};

/// Rounds, re-solves the rest with new patterns, rounds again, until everything is cut. Offers the
/// plan to the search. Stops early when it cannot beat the best. Leaves the relaxation on the rest.
void dive(Search& search, Relaxation& relaxation, const DiveRule& rule);

} // namespace leafwright::cut
