#pragma once

#include "plan/supply/sheets.h"

namespace leafwright::supply {

// A pattern of the planner as a sheet on the table: pieces placed from the top left corner (the
// planner counts from the lower left), leftovers gathered, and the cuts in the order a person makes
// them: all strips of one direction first, widest first so that one setting of the fence serves all
// alike, then each strip across. Strips change places for that; what is cut does not change.
// Placed::line is left as the index of the planner's piece.
SheetLayout unfold(const cut::Pattern& pattern, Length blade);

} // namespace leafwright::supply
