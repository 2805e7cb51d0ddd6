#pragma once

#include "guide/block.h"
#include "model/project.h"
#include "plan/supply/buying.h"

// What stands below the shopping list; a section without blocks where there is nothing to tell.

namespace leafwright::guide {

// What is cut from each spool.
Section ribbon_section(const Project& project, const supply::Buying& buying);
// Offcuts and lengths of ribbon that are left over.
Section kept_section(const Project& project, const supply::Buying& buying);

} // namespace leafwright::guide
