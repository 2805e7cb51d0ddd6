#include "model/acceptance.h"

#include "model/project.h"

#include <algorithm>
#include <utility>

namespace leafwright {

namespace {

bool before(Place a, Place b) { return std::pair(a.line, a.column) < std::pair(b.line, b.column); }

} // namespace

bool accepts(const Acceptance& one, const Finding& finding) {
  const Place at = finding.place;
  return finding.severity != Severity::Error && finding.code == one.finding &&
         at.file == one.from.file && !before(at, one.from) &&
         (one.until.line == 0 || before(at, one.until));
}

const Acceptance* acceptance_of(const Project& project, const Finding& finding) {
  const auto found = std::ranges::find_if(
      project.accepted, [&](const Acceptance& one) { return accepts(one, finding); });
  return found == project.accepted.end() ? nullptr : &*found;
}

void leave_out_accepted(const Project& project, Findings& findings) {
  if (project.accepted.empty()) return;
  std::erase_if(findings, [&](const Finding& one) { return acceptance_of(project, one); });
}

} // namespace leafwright
