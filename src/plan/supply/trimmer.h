#pragma once

#include "model/project.h"

namespace leafwright::supply {

// The project's straight trimmer: the first tool with a cutting length; nullptr when there is none.
const Tool* trimmer_of(const Project& project);

} // namespace leafwright::supply
