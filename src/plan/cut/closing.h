#pragma once

#include "plan/cut/lister.h"

#include <cstdint>

namespace leafwright::cut {

struct ClosingEffort {
  ProofEffort list;              ///< entries and columns of it
  std::uint32_t stored = 60'000; ///< sums of patterns held in the table
  std::int64_t tries = 600'000;  ///< sums of patterns looked up in it
};

/// Looks for a plan that costs exactly the bound, where copies are many. Such a plan is one of the
/// relaxation's with a few other patterns in it, which together give away the gap, no more and no
/// less. The relaxation's own patterns can make up the rest in whole sheets just when the others
/// leave the residue of the demand (residue.h), so handfuls of patterns are drawn and two are
/// sought that meet in it. Whether all amounts stay positive is then checked; they are large where
/// copies are many. True: found, or the bound rose to the best plan.
bool close_gap(Search& search, Relaxation& relaxation, std::uint64_t number,
               const ClosingEffort& effort);

} // namespace leafwright::cut
