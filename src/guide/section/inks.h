#pragma once

#include "guide/block.h"
#include "model/project.h"

namespace leafwright::guide {

// Which image is stamped in which ink on which card, and how. Empty when nothing is stamped.
Section inks_section(const Project& project);
Table ink_matrix(const Project& project);

} // namespace leafwright::guide
