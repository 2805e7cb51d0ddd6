#pragma once

#include "plan/cut/cut.h"
#include "plan/supply/sheets.h"

#include <cstdint>

// A third of 11 in is no whole number of nanometres: three of them leave one nanometre of the
// sheet, which no plan can use and no blade cuts off, and no two sizes have a common step. So a job
// that holds such parts of its sheets is planned in parts of a nanometre.

namespace leafwright::supply {

// Puts a job into units so fine that its parts of a sheet are exact; how many go on a nanometre,
// mostly one.
std::int64_t refine(cut::Job& job);
// What was laid out in such units, in nanometres again.
void coarsen(SheetLayout& layout, std::int64_t fine);

} // namespace leafwright::supply
