#pragma once

#include "plan/cut/internal/search.h"

#include <cstdint>
#include <span>
#include <vector>

namespace leafwright::cut {

struct ProgrammeResult {
  Sheets sheets;         // empty: none found below the cutoff
  std::int64_t work = 0; // steps of the solver, for the budget
  bool complete =
      false; // the search was exhausted: nothing below the cutoff exists over the columns
};

enum class Manner {
  Find,   // a plan is hoped for: straight down the tree, no time lost on cutting planes
  Settle, // the answer No is wanted as much
};

// Whole sheets of the given pool columns that cover `demand` within the stocks' limits, at a cost
// below `cutoff` (-1: any). Solved by CBC, with at most `nodes` nodes and `steps` of work; both
// are counted, so that neither clock nor load has a say. The budget's brake stops it too.
ProgrammeResult solve_programme(const Search& search, std::span<const int> columns,
                                std::span<const std::int64_t> demand, std::int64_t cutoff,
                                int nodes, std::int64_t steps, Manner manner);

} // namespace leafwright::cut
