#pragma once

#include "app/system/environment.h"

#include <string>
#include <vector>

namespace leafwright::app {

// The whole program. `words` are those of the command line without the program's name; the answer
// is the exit code (app/system/environment.h). Documents are written where -o says, findings go to
// `environment.error`, answers to `environment.out`. Throws only what the system throws (no
// memory).
//
//   run({"tutorial", "project.xml", "-o", "out"}, environment);
int run(const std::vector<std::string>& words, Environment environment);

} // namespace leafwright::app
