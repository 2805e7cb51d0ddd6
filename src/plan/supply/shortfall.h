#pragma once

#include "model/project.h"
#include "plan/supply/needs.h"

#include <cstdint>
#include <vector>

// What is done to the parts of a tier before their buyer opens the envelope.

namespace leafwright::supply {

struct PartsReady {
  bool cut = false;     // to the rectangles of the cut list
  bool die_cut = false; // ... and shapes and windows with their dies
  bool stamped = false; // ... and the images of the pieces
};
// The parts of one card of a kit of this tier; nothing is done to parts that do not come cut.
PartsReady parts_ready(const Tier& tier, int card);

// Whether any piece or window is cut with a die.
bool cuts_with_a_die(const Project& project);

// What one kit takes once its parts have come: the dies that only cut what comes cut are not among
// it, nor the machine that presses nothing else, nor the trimmer when all paper comes cut. Amounts
// of the rest are those of needs_of_kit().
Needs needs_beside_parts(const Project& project, const Tier& tier);

// Papers of which a tier hands over some, and less than one kit is cut from.

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
