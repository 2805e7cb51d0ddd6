#pragma once

#include "guide/block.h"
#include "model/project.h"
#include "plan/supply/sheets.h"

namespace leafwright::guide {

// Each sheet to scale with the order of cutting beside it.
// `from_pieces`: its reader got pieces of some sheets.
Section cut_diagrams_section(const Project& project, const supply::KitSheets& sheets,
                             bool from_pieces = false);

// The order of cutting of one layout: settings of the fence, strips, turns, what falls free.
List cutting_order(const Project& project, const supply::KitSheets& sheets,
                   const supply::SheetLayout& layout);

} // namespace leafwright::guide
