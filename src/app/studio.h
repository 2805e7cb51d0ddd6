#pragma once

#include "app/arguments.h"
#include "app/documents.h"
#include "app/run.h"

#include <string>
#include <variant>
#include <vector>

namespace leafwright::app {

// What every verb that makes documents begins with.
struct Studio {
  Workshop workshop;
  Prepared prepared;
};

// Fonts, templates and what the command line wishes; an exit code when they are not there.
std::variant<Workshop, int> open_workshop(const Arguments& arguments, Surroundings& surroundings);

// Reads the project, finds fonts and templates. Says on the error stream what is amiss and gives
// the exit code instead when nothing can be made.
std::variant<Studio, int> open_studio(const Arguments& arguments, Surroundings& surroundings);

// Writes files below the folder asked for; names them on the output stream unless `quiet`. An exit
// code.
int write_all(const std::vector<MadeFile>& files, const Arguments& arguments, bool quiet,
              Surroundings& surroundings);

} // namespace leafwright::app
