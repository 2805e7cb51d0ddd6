#pragma once

#include <string>

namespace leafwright::app {

// For whom papers are made, where that makes a difference.
struct Audience {
  std::string tier;               // --for: the id of a tier; empty = everybody
  int students = 0, tables = 0;   // of a class; 0 = as the project's class day says
  std::string print = "standard"; // handouts: standard, large or easy
  int per_sheet = 1;              // handouts: 2 = two alike on a sheet, to be cut apart
  bool grey = false;              // for a printer without colour
};

} // namespace leafwright::app
