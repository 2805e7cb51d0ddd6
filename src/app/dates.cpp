#include "app/dates.h"

#include "plan/calendar/work.h"

namespace leafwright::app {

calendar::DayPlan day_plan(const Prepared& prepared) {
  const Project& project = prepared.reading.project;
  const guide::PackingList& list = prepared.packing.value();
  const supply::Buying& buying = prepared.buying.value();
  return calendar::plan_days(
      project, calendar::work_of(project, buying, list.parcels, list.contents), buying);
}

Findings check_dates(Prepared& prepared, const cut::Effort& effort) {
  const Project& project = prepared.reading.project;
  if (!project.run.reply_by || !project.run.ship_by)
    return calendar::plan_days(project, {}, {}).findings;
  if (!prepared.buying) plan_run(prepared, effort);
  return day_plan(prepared).findings;
}

} // namespace leafwright::app
