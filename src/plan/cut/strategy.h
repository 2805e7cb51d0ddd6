#pragma once

#include "plan/cut/search.h"

namespace leafwright::cut {

/// Relaxation, rounding, local search and proof in turn until the best plan is proven or the effort
/// is spent. Types that no pattern can supply are returned (rules or limits forbid them).
std::vector<int> search_plan(Search& search);

/// A bound for the job without its smallest strip and stages: whatever keeps the rules obeys it
/// too.
std::int64_t free_bound(const Job& job, Budget& budget);

} // namespace leafwright::cut
