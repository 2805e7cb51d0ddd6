#pragma once

#include "model/project.h"

namespace leafwright::supply {

// Whether the making of a card calls for a tool. The project only lists tools, so it is told from
// what they are: a tool with a cutting length is a trimmer and serves pieces cut with one; other
// blades serve scissor work and hand-cut windows; heat serves heat embossing; pressure serves dies
// and embossing. Of the rest a powder serves heat embossing, a block stamping, a folder and a score
// board folds, by the words of their names (common practice). A tool named in a piece's finish, or
// in what the author writes of a card, serves that card. Of all others nothing is known.
enum class ToolUse { No, Yes, Unknown };
ToolUse tool_use(const Project& project, const Card& card, int tool);

} // namespace leafwright::supply
