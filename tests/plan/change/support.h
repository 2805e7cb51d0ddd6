#pragma once

#include "../supply/kits_bought.h"

#include "plan/change/compare.h"
#include "plan/fit/check.h"
#include "plan/supply/buying.h"
#include "read/read.h"

#include <doctest/doctest.h>

#include <string>
#include <vector>

namespace leafwright::test {

// A project worked out as far as a comparison needs it.
struct Worked {
  Reading reading;
  supply::CuttingPlan kit;
  supply::Buying buying;
  change::Edition edition() const { return {reading.project, kit, reading.findings, buying}; }
};

inline Worked worked(const char* sample, const std::vector<std::string>& overrides = {}) {
  Worked out;
  ReadOptions options;
  options.overrides = overrides;
  out.reading = read_project_file(
      std::string(LEAFWRIGHT_SOURCE_DIR) + "/samples/" + sample + "/project.xml", options);
  REQUIRE(out.reading.ok());
  out.kit = supply::sheets_for(out.reading.project);
  cut::Effort effort;
  effort.work = 20'000'000;
  out.buying =
      supply::buying_for(out.reading.project, supply::planned_kits(out.reading.project), effort);
  return out;
}

} // namespace leafwright::test
