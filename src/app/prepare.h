#pragma once

#include "plan/supply/sheets.h"
#include "read/read.h"

#include <string>
#include <vector>

namespace leafwright::app {

// A project read, planned and checked: what every document starts from.
struct Prepared {
  Reading reading;
  supply::KitSheets sheets; // of one kit
  Findings findings;        // of reading and of the rules, in that order
};

// With errors of reading the plan is left out: it would speak of things that are not there.
Prepared prepare(const std::string& path, const std::vector<std::string>& overrides);

} // namespace leafwright::app
