#pragma once

#include "plan/cut/search.h"

#include <cstdint>
#include <span>
#include <vector>

namespace leafwright::cut {

struct ProgrammeResult {
  Sheets sheets;         ///< empty: none found below the cutoff
  std::int64_t work = 0; ///< steps of the solver, for the budget
  bool complete =
      false; ///< the search was exhausted: nothing below the cutoff exists over the columns
};

/// Whole sheets of the given pool columns that cover `demand` within the stocks' limits, at a cost
/// below `cutoff` (-1: any). Solved by CBC, at most `nodes` nodes and `seconds`.
ProgrammeResult solve_programme(const Search& search, std::span<const int> columns,
                                std::span<const std::int64_t> demand, std::int64_t cutoff,
                                int nodes, double seconds);

} // namespace leafwright::cut
