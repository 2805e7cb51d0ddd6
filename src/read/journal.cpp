#include "read/journal.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace leafwright::reading {

void Journal::add(Finding finding) {
  if (finding.severity == Severity::Error) ++errors_;
  if (full()) {
    ++left_away_;
    return;
  }
  Key key{finding.place.file, finding.place.line, finding.place.column, finding.code,
          finding.found};
  if (!seen_.insert(std::move(key)).second) return;
  findings_.push_back(std::move(finding));
}

void Journal::error(std::string_view code, Place place, std::string found, std::string expected,
                    std::string mend) {
  add({Severity::Error,
       std::string(code),
       place,
       std::move(found),
       std::move(expected),
       std::move(mend),
       {}});
}

void Journal::warning(std::string_view code, Place place, std::string found, std::string expected,
                      std::string mend) {
  add({Severity::Warning,
       std::string(code),
       place,
       std::move(found),
       std::move(expected),
       std::move(mend),
       {}});
}

Findings Journal::take() {
  const auto key = [](const Finding& f) {
    return std::tuple(f.place.file, f.place.line, f.place.column);
  };
  std::stable_sort(findings_.begin(), findings_.end(),
                   [&](const Finding& a, const Finding& b) { return key(a) < key(b); });
  if (left_away_ > 0) {
    findings_.push_back({Severity::Note,
                         "read-more",
                         {},
                         fmt::format("{} more findings are not shown", left_away_),
                         "fewer faults at a time",
                         "mend those above first",
                         {}});
  }
  return std::move(findings_);
}

} // namespace leafwright::reading
