#pragma once

#include "guide/block.h"
#include "model/project.h"
#include "plan/supply/needs.h"

namespace leafwright::guide {

// What one kit takes: item, amount and the cards that take it, grouped as the trade lists it.
Section supplies_section(const Project& project, const supply::Needs& needs);

// The table alone, for a packing slip or a handout of one card.
Table supplies_table(const Project& project, const supply::Needs& needs);
// The printed name of an item; inks with their chip.
Inlines item_cell(const Project& project, ItemRef item);

} // namespace leafwright::guide
