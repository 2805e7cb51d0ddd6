#pragma once

#include "guide/block.h"
#include "model/project.h"
#include "plan/supply/needs.h"
#include "plan/supply/sheets.h"

// What stands in the booklet of one buyer, or of a fellow teacher, in place of or beside what
// stands in everybody's.

namespace leafwright::guide {

// Whether a buyer of this tier gets the parts of every card, cut.
bool comes_cut(const Project& project, const Tier& tier);

// What came with the kit, and what the buyer adds: only things that the cards take.
Section owned_supplies_section(const Project& project, const supply::Needs& needs,
                               const Tier& tier);
// The parts of a kit that comes cut: letter, piece, how many lie in its envelope, how large it is
// there. It takes the place of the cut list.
Section envelopes_section(const Project& project, const supply::KitSheets& sheets,
                          const Tier& tier);

// How many of each a class of `students` takes, each making one kit.
Section class_section(const Project& project, const supply::Needs& one, int students);

} // namespace leafwright::guide
