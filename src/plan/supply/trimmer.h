#pragma once

#include "model/project.h"
#include "plan/cut/cut.h"

namespace leafwright::supply {

// The project's straight trimmer: the first tool with a cutting length; nullptr when there is none.
const Tool* trimmer_of(const Project& project);

// What straight cuts may do, for one kit as for a run: anything. A trimmer's smallest strip is the
// least that its guard holds down, and what is held is the part that is kept: the sliver falls off
// beyond the blade. So trimmings may be as narrow as they like; only a piece that is itself too
// narrow cannot be held, and the rule fit-strip speaks of it.
cut::Rules cutting_rules();

} // namespace leafwright::supply
