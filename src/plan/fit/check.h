#pragma once

#include "model/project.h"
#include "plan/supply/sheets.h"

#include <span>
#include <string_view>

// Whether the cards can be made, closed, posted and cut: rules over the finished model.

namespace leafwright::fit {

struct Rule {
  std::string_view id;
  Severity severity = Severity::Warning;
  std::string_view meaning; // one line: what is wrong when it speaks
};
// In the order in which they are checked; ids are stable.
std::span<const Rule> rules();

// Everything that does not fit, card by card, then what concerns the whole project. With a layout
// the cuts on its sheets are checked too. CuttingPlan::findings are among the result either way.
Findings check(const Project& project, const supply::CuttingPlan* sheets = nullptr);

// What the cuts on the sheets of the whole batch ask of the trimmer; a kit's are among check().
Findings check_batch(const Project& project, const supply::CuttingPlan& sheets);

// What was worked out of the making and is written nowhere, as notes: which cards a tool serves and
// by which work, which tools are taken for granted, what a step is understood to tell. Not part of
// check(): there is nothing to mend.
Findings inferred(const Project& project);

} // namespace leafwright::fit
