#pragma once

#include "model/project.h"

#include <cstdint>
#include <vector>

// Papers of which a tier hands over some, and less than one kit is cut from.

namespace leafwright::supply {

struct Shortfall {
  int stock = -1;
  std::int64_t sheets = 0; // of the first size of the stock, beside what the tier holds
  bool in_pieces = false;  // the tier holds pieces of sheets, not only whole ones
};

// By straight cuts of the sheets and pieces handed over and as few whole sheets more as will do.
// Papers of which the tier holds nothing are not among them, nor parts that come cut.
std::vector<Shortfall> shortfalls_of(const Project& project, const Tier& tier);

// Whether the tier hands over pieces of sheets for its buyer to cut.
bool gives_pieces_of_sheets(const Project& project, const Tier& tier);

} // namespace leafwright::supply
