#pragma once

#include "guide/block.h"
#include "model/project.h"

#include <vector>

namespace leafwright::guide {

// How to read the booklet: letters, lines, units, a scale bar, and the cautions that this project
// calls for.
Section reading_section(const Project& project);

// Only the cautions: blades, hot tools, rollers, small parts, inks and glues, and the author's own.
std::vector<Notice> cautions(const Project& project);

} // namespace leafwright::guide
