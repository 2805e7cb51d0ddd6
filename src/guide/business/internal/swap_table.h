#pragma once

#include "guide/block.h"
#include "model/project.h"

#include <optional>

namespace leafwright::guide {

// For each thing of a tier whose owner gets credit: the credit and the best uses of it. Nothing
// when the tier has no list to choose from.
std::optional<Table> swap_table(const Project& project, int tier);

} // namespace leafwright::guide
