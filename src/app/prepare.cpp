#include "app/prepare.h"

#include "plan/fit/check.h"

namespace leafwright::app {

Prepared prepare(const std::string& path, const std::vector<std::string>& overrides) {
  ReadOptions options;
  options.overrides = overrides;
  Prepared prepared;
  prepared.reading = read_project_file(path, options);
  prepared.findings = prepared.reading.findings;
  if (!prepared.reading.ok()) return prepared;
  prepared.sheets = supply::sheets_for(prepared.reading.project);
  Findings found = fit::check(prepared.reading.project, &prepared.sheets);
  prepared.findings.insert(prepared.findings.end(), std::make_move_iterator(found.begin()),
                           std::make_move_iterator(found.end()));
  return prepared;
}

} // namespace leafwright::app
