#pragma once

#include "guide/block.h"
#include "model/project.h"

namespace leafwright::guide {

// Full-size guides: where things lie on each side, and outlines to trace. Empty when nothing is
// laid.
Section templates_section(const Project& project);

} // namespace leafwright::guide
