#pragma once

#include "../../plan/supply/kits_bought.h"

#include "guide/change/report.h"
#include "guide/tutorial.h"
#include "plan/change/compare.h"
#include "plan/supply/buying.h"
#include "read/read.h"

#include <doctest/doctest.h>

#include <string>
#include <vector>

namespace leafwright::test {

// The main sample with some values changed, worked out and told as far as a report needs it.
struct Edition {
  Reading reading;
  supply::CuttingPlan kit;
  supply::Buying buying;
  guide::Document tutorial;
  const Project& project() const { return reading.project; }
  change::Edition worked() const { return {reading.project, kit, reading.findings, buying}; }
};

inline Edition edition_of(const std::string& project, const std::vector<std::string>& overrides,
                          const cut::Effort& effort) {
  ReadOptions options;
  options.overrides = overrides;
  Edition out;
  out.reading = read_project_file(LEAFWRIGHT_SOURCE_DIR "/" + project, options);
  REQUIRE(out.reading.ok());
  out.kit = supply::sheets_for(out.project());
  out.buying = supply::buying_for(out.project(), supply::planned_kits(out.project()), effort);
  out.tutorial = guide::tutorial(out.project(), out.kit, {});
  return out;
}

inline Edition edition(const std::vector<std::string>& overrides = {}) {
  cut::Effort effort;
  effort.work = 5'000'000;
  return edition_of("samples/orchard-gate/project.xml", overrides, effort);
}

inline guide::ChangeStory story_of(const Edition& before, const Edition& after,
                                   const change::Comparison& comparison) {
  guide::ChangeStory story{before.project(),
                           after.project(),
                           comparison,
                           "edition 3",
                           "edition 4",
                           {},
                           {},
                           {},
                           {},
                           {},
                           {},
                           {}};
  story.sections = guide::section_changes(before.tutorial, after.tutorial);
  story.steps = guide::step_changes(before.tutorial, after.tutorial);
  story.full_size = guide::full_size_changes(before.tutorial, after.tutorial);
  return story;
}

} // namespace leafwright::test
