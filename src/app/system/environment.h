#pragma once

#include <iosfwd>

// What a run of the program finds around it, and the number it leaves with.
//
//   std::ostringstream out, error;
//   Environment environment{out, error};        // no terminal, no variables: as a test gives it
//   environment.data = "/somewhere/leafwright"; // as LEAFWRIGHT_DATA says
//   const int code = run({"check", "project.xml"}, environment); // app/verbs/program.h

namespace leafwright::app {

struct Environment {
  std::ostream& out;
  std::ostream& error;
  bool out_is_terminal = false;
  bool error_is_terminal = false;
  const char* no_color = nullptr;                      // NO_COLOR
  const char* source_date_epoch = nullptr;             // SOURCE_DATE_EPOCH
  const char* data = nullptr;                          // LEAFWRIGHT_DATA
  const char* (*variable)(const char* name) = nullptr; // any other variable
};

// Few, documented, stable. 126 and above belong to the shell.
enum ExitCode : int {
  Done = 0,
  FoundErrors = 1, // the project has errors (with --strict: or warnings)
  WrongUse = 2,    // options or names of files are off
  NotWritten = 3,  // a file could not be read or written
};

} // namespace leafwright::app
