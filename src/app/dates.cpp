#include "app/dates.h"

#include "plan/calendar/work_time.h"

#include <algorithm>

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
  // A plan made in haste wastes more, so that the work takes longer, if anything: only where that
  // is too long does the plan matter that the calendar is made from.
  constexpr std::int64_t haste = 50'000'000; // a few hundredths of a second for each stock
  cut::Effort hasty = effort;
  hasty.work = std::min(hasty.work, haste);
  plan_run(prepared, hasty);
  Findings findings = day_plan(prepared).findings;
  const bool too_long = std::any_of(findings.begin(), findings.end(), [](const Finding& one) {
    return one.code == "date-supplies-late" || one.code == "date-no-time";
  });
  if (too_long) {
    plan_run(prepared, effort);
    findings = day_plan(prepared).findings;
  }
  prepared.buying.reset(); // nobody shall take it for the plan of the run
  return findings;
}

} // namespace leafwright::app
