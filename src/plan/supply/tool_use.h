#pragma once

#include "model/project.h"

namespace leafwright::supply {

// Whether the making of a card calls for a tool. The project only lists tools, so it is told from
// what they are: a tool with a cutting length is a trimmer and serves pieces cut with one; other
// blades serve scissor work and hand-cut windows; heat serves heat embossing; pressure serves dies
// and embossing; the rest serve every card. A tool named in a piece's finish serves that card.
bool uses_tool(const Card& card, const Tool& tool);

} // namespace leafwright::supply
