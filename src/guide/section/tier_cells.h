#pragma once

#include "guide/block.h"
#include "model/project.h"
#include "plan/supply/needs.h"

namespace leafwright::guide {

// What a tier holds of one needed item: "24 in", "whole set", "cut", "must own"; the quiet "your
// own" when it holds none.
Inlines tier_cell(const Project& project, const Tier& tier, const supply::Need& need);

// Whether the tier holds any of the item.
bool holds_some(const Project& project, const Tier& tier, const supply::Need& need);
// Whether the tier neither holds the item nor asks for it.
bool is_your_own(const Project& project, const Tier& tier, const supply::Need& need);

} // namespace leafwright::guide
