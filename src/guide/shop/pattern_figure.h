#pragma once

#include "guide/block.h"
#include "model/project.h"
#include "plan/supply/sheets.h"

namespace leafwright::guide {

// The sheet of a pattern to scale: pieces with letters and sizes, cuts with their numbers.
figure::Scene pattern_scene(const Project& project, const supply::CuttingPlan& sheets,
                            const supply::SheetLayout& pattern);

} // namespace leafwright::guide
