#pragma once

#include "guide/block.h"
#include "model/project.h"
#include "plan/supply/needs.h"

namespace leafwright::guide {

// What each tier holds, with amounts, and its conditions in plain words. Empty when there are no
// tiers.
Section tiers_section(const Project& project, const supply::Needs& needs);

// Items down, tiers across; only items that some tier holds or asks for.
Table tiers_table(const Project& project, const supply::Needs& needs);
// The others in one sentence; empty when there are none.
Inlines never_included(const Project& project, const supply::Needs& needs);
// The conditions of one tier, each a sentence.
List tier_conditions(const Project& project, const Tier& tier);

} // namespace leafwright::guide
