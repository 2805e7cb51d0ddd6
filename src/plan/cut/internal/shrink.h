#pragma once

#include "plan/cut/internal/search.h"

#include <cstdint>
#include <span>
#include <vector>

namespace leafwright::cut {

// Packs `left` (not negative, few pieces) into sheets that cost less than `cost_below`, by local
// search; `used` sheets of each stock are gone. Returns the sheets as pool columns; empty when it
// did not succeed. For one stock that is bought, and others that are there for nothing.
Sheets pack_rest(Search& search, std::span<const std::int64_t> left,
                 std::span<const std::int64_t> used, std::int64_t cost_below, std::uint64_t number,
                 std::int64_t steps);

// A first plan for few pieces by placing them one after the other.
void first_plan(Search& search);

// Whether `shrink` repacks the whole plan, not a part of it.
bool repacked_whole(const Search& search);

// Tries to do with one sheet less: takes a part of the best plan that the local search can handle
// and repacks it. True: the best plan improved.
bool shrink(Search& search, std::uint64_t number, std::int64_t steps);

} // namespace leafwright::cut
