#pragma once

#include <iosfwd>
#include <string>
#include <vector>

namespace leafwright::app {

// The surroundings of a run, so that tests can give others.
struct Surroundings {
  std::ostream& out;
  std::ostream& error;
  bool out_is_terminal = false;
  bool error_is_terminal = false;
  const char* no_color = nullptr;                      // NO_COLOR
  const char* source_date_epoch = nullptr;             // SOURCE_DATE_EPOCH
  const char* data = nullptr;                          // LEAFWRIGHT_DATA
  const char* (*variable)(const char* name) = nullptr; // any other variable of the environment
};

// The whole program; returns the exit code (exit_codes.h). `words` without the program's name.
int run(const std::vector<std::string>& words, Surroundings surroundings);

} // namespace leafwright::app
