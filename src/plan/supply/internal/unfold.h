#pragma once

#include "plan/supply/sheets.h"

#include <vector>

namespace leafwright::supply {

// A pattern of the planner as a sheet on the table: pieces placed from the top left corner (the
// planner counts from the lower left), leftovers gathered, and the cuts in the order a person makes
// them: all strips of one direction first, widest first so that one setting of the fence serves all
// alike, then each strip across. Strips change places for that; what is cut does not change.
// `pieces` says which piece of the CuttingPlan each of the planner's is.
SheetLayout unfold(const cut::Pattern& pattern, Length blade, const std::vector<int>& pieces);

} // namespace leafwright::supply
