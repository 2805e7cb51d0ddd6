#pragma once

#include "plan/cut/lister.h"

#include <cstdint>

namespace leafwright::cut {

/// Settles whether any plan is cheaper than the best: every pattern such a plan could use is listed
/// (its reduced cost is at most the gap), then the programme over these patterns is solved. Either
/// the best plan improves, or the bound rises to it, or (too much work) nothing happens: false.
/// `relaxation` must have been solved for the whole demand.
bool prove(Search& search, Relaxation& relaxation, const ProofEffort& effort);

/// Whether the lists apply at all: the argument by reduced costs is made for unlimited stocks, the
/// list for patterns that may be pushed together.
bool out_of_scope(const Search& search);

/// The whole parts of the relaxation's amounts, less some, drawn by `number` when not 0.
Sheets floors_of(const Relaxation& relaxation, std::uint64_t number);

/// The same for what whole sheets of the relaxation leave: takes the whole parts of its amounts
/// (less some, drawn by `number` when not 0) and completes them below the best cost. True:
/// improved.
bool complete_floors(Search& search, Relaxation& relaxation, std::uint64_t number,
                     const ProofEffort& effort);

/// Whether the rest after `taken` can be completed below the best cost; Yes: it was, and is
/// offered. `relaxation` must have been solved for the rest.
Answer complete_rest(Search& search, const Relaxation& relaxation, const Sheets& taken,
                     const ProofEffort& effort);

} // namespace leafwright::cut
