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

void plan_run(Prepared& prepared, double seconds) {
  const Project& project = prepared.reading.project;
  cut::Effort effort;
  effort.seconds = seconds;
  prepared.buying = supply::buying_for(project, supply::planned_kits(project), effort);
}

} // namespace leafwright::app
