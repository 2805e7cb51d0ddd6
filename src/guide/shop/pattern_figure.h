#pragma once

#include "guide/block.h"
#include "model/project.h"
#include "plan/supply/run_sheets.h"

namespace leafwright::guide {

// The sheet of a pattern to scale: pieces with letters and sizes, cuts with their numbers.
figure::Scene pattern_scene(const Project& project, const supply::RunSheets& sheets,
                            const supply::RunPattern& pattern);

// The cuts in order, then scores and what to keep. The first entries are the numbers of the
// diagram.
List order_words(const Project& project, const supply::RunSheets& sheets,
                 const supply::RunPattern& pattern);

} // namespace leafwright::guide
