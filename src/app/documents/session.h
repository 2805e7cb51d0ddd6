#pragma once

#include "app/documents/documents.h"
#include "app/system/arguments.h"
#include "app/system/environment.h"

#include <string>
#include <variant>
#include <vector>

// What every verb that makes documents begins and ends with. What is amiss is said on the error
// stream, and an exit code comes instead.
//
//   auto opened = open_session(arguments, environment);
//   if (const int* code = std::get_if<int>(&opened)) return *code;
//   const auto& [settings, planned] = std::get<Session>(opened);
//   return write_all(files, arguments, arguments.quiet, environment);

namespace leafwright::app {

struct Session {
  RenderSettings settings;
  PlannedProject planned;
};

// Fonts, templates and what the command line wishes.
std::variant<RenderSettings, int> open_settings(const Arguments& arguments,
                                                Environment& environment);

// The same and the project, planned. Findings that stop the work are printed.
std::variant<Session, int> open_session(const Arguments& arguments, Environment& environment);

// Prints the findings of the work. An exit code when they stop it, which is said.
std::optional<int> stopped_by(const Findings& findings, const Sources& sources,
                              const Arguments& arguments, Environment& environment);

// Writes files below the folder asked for; names them on the output stream unless `quiet`. An exit
// code.
int write_all(const std::vector<OutputFile>& files, const Arguments& arguments, bool quiet,
              Environment& environment);

} // namespace leafwright::app
