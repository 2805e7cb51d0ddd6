#pragma once

#include "plan/cut/cut.h"

#include <cstdint>
#include <set>
#include <vector>

// Brute force on tiny jobs, written apart from the planner: every set of pieces that a part
// yields, by trying every cut at every whole position.
namespace leafwright::cut::exact {

using Set = std::vector<int>; // copies per piece type

// All sets (no more than wanted) the sheet yields under the job's rules, maximal or not.
std::set<Set> yields(const Job& job, int sheet);

// Least cost of covering the job exactly; -1: impossible.
std::int64_t least_cost(const Job& job);

} // namespace leafwright::cut::exact
