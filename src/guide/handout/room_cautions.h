#pragma once

#include "guide/block.h"
#include "model/project.h"

#include <vector>

namespace leafwright::guide {

// What one card's handout warns of beside its steps, a line each, by what the card uses: its tools,
// parts small enough to swallow, what runs on a battery, and the maker's own cautions that speak of
// a thing of this card. Batteries and flames are common practice; all defer to the makers.
std::vector<Notice> room_cautions(const Project& project, int card);

} // namespace leafwright::guide
