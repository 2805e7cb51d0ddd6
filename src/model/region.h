#pragma once

#include "model/project.h"

namespace leafwright {

// Whether the rules of the United States hold for a project: its money is dollars of theirs and its
// language names no other country ("en" and "en-US", not "en-GB"). Nothing else is guessed from.
bool in_united_states(const Project& project);

} // namespace leafwright
