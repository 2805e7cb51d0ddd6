#pragma once

#include "model/project.h"
#include "plan/fit/check.h"
#include "plan/supply/sheets.h"

#include <span>

// Whether the tiers make sense beside each other and for the maker. Takes longer than the rules of
// fit, so a tutorial does not wait for it.

namespace leafwright::tiers {

std::span<const fit::Rule> rules();

// `sheets` of one kit say how well paper is used; without them paper counts by its area alone.
Findings check(const Project& project, const supply::CuttingPlan* sheets = nullptr);

} // namespace leafwright::tiers
