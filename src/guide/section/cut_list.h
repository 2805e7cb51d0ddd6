#pragma once

#include "guide/block.h"
#include "model/project.h"
#include "plan/supply/sheets.h"

namespace leafwright::guide {

// Every piece with its letter, size in both units, count for a kit, and what is done after the
// trimmer.
Section cut_list_section(const Project& project, const supply::KitSheets& sheets);
Table cut_list_table(const Project& project, const supply::KitSheets& sheets);

} // namespace leafwright::guide
