#include "app/prepare.h"

#include "app/findings.h"
#include "app/orders.h"
#include "plan/fit/check.h"

#include <utility>

namespace leafwright::app {

Prepared prepare(const std::string& path, const std::vector<std::string>& overrides,
                 supply::PlanCache* kept) {
  ReadOptions options;
  options.overrides = overrides;
  return prepare(read_project_file(path, options), kept);
}

Prepared prepare(Reading reading, supply::PlanCache* kept) {
  Prepared prepared;
  prepared.reading = std::move(reading);
  prepared.findings = prepared.reading.findings;
  if (!prepared.reading.ok()) return prepared;
  const Project& project = prepared.reading.project;
  prepared.sheets =
      kept != nullptr ? supply::sheets_for(project, *kept) : supply::sheets_for(project);
  append(prepared.findings, fit::check(project, &prepared.sheets));
  return prepared;
}

void plan_run(Prepared& prepared, const cut::Effort& effort) {
  take_orders(prepared);
  const Project& project = prepared.reading.project;
  prepared.buying = supply::buying_for(project, prepared.packing.value().parcels.kinds, effort);
}

void plan_run(Prepared& prepared, double seconds) {
  cut::Effort effort;
  effort.seconds = seconds;
  plan_run(prepared, effort);
}

} // namespace leafwright::app
