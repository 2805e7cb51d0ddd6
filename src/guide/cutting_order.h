#pragma once

#include "guide/block.h"
#include "model/project.h"
#include "plan/supply/sheets.h"

namespace leafwright::guide {

// The cuts of a sheet in order, then scores and what to keep; of a kit as of a run. The first
// entries are the numbers of the diagram, figure::sheet().
List cutting_order(const Project& project, const supply::CuttingPlan& plan,
                   const supply::SheetLayout& layout);

// The letters of a piece in dots, as in its diagram.
Inlines letter_dots(const supply::CutPiece& piece);

} // namespace leafwright::guide
