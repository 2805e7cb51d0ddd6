#pragma once

#include "model/project.h"

namespace leafwright::supply {

// Whether the making of a card calls for a tool: by the kinds of work it is for, and where a
// piece's finish, an author's step or words name it. Of a tool that is for nothing and named
// nowhere nothing is known.
enum class ToolUse { No, Yes, Unknown };
ToolUse tool_use(const Project& project, const Card& card, int tool);

} // namespace leafwright::supply
