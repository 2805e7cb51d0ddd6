#pragma once

#include "../../measure/show.h"
#include "small_project.h"

#include "plan/fit/check.h"

#include <doctest/doctest.h>

#include <string>
#include <string_view>

namespace leafwright::testing {

// What the check says about a project, one rule at a time.
inline Findings found(const Project& project, std::string_view rule,
                      const supply::CuttingPlan* sheets = nullptr) {
  Findings some;
  for (Finding& finding : fit::check(project, sheets))
    if (finding.code == rule) some.push_back(std::move(finding));
  return some;
}

inline bool says(const Project& project, std::string_view rule) {
  return !found(project, rule).empty();
}

// Printed lengths hold no-break spaces; tests are easier to read without.
inline std::string plain(std::string text) {
  const std::string no_break = "\u00a0";
  for (std::size_t at = text.find(no_break); at != std::string::npos; at = text.find(no_break, at))
    text.replace(at, no_break.size(), " ");
  return text;
}

// Applies one change to a fresh small project.
template <class Change>
Project changed(Change change) {
  Project project = small_project();
  change(project, project.cards.at(0));
  return project;
}

} // namespace leafwright::testing
