#pragma once

namespace leafwright::app {

// Few, documented, stable. 126 and above belong to the shell.
enum ExitCode : int {
  Done = 0,
  FoundErrors = 1, // the project has errors (with --strict: or warnings)
  WrongUse = 2,    // options or names of files are off
  NotWritten = 3,  // a file could not be read or written
};

} // namespace leafwright::app
