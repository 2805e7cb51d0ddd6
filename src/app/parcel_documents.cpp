#include "app/parcel_documents.h"

#include "app/dates.h"
#include "app/findings.h"
#include "app/typeset.h"
#include "guide/parcels/parcels.h"
#include "guide/sections.h"
#include "measure/index.h"
#include "plan/calendar/icalendar.h"

#include <algorithm>
#include <utility>

namespace leafwright::app {

namespace {

Made set_apart(Made made) {
  for (MadeFile& file : made.files) file.name = "private/" + file.name;
  return made;
}

// DTSTAMP: SOURCE_DATE_EPOCH, else the project's date, else the beginning of 1970.
std::int64_t stamp_of(const Project& project, const Workshop& workshop) {
  if (workshop.created) return *workshop.created;
  return std::max<std::int64_t>(guide::epoch_of(project).value_or(0), 0);
}

} // namespace

Made make_packing_slips(const Prepared& prepared, const Workshop& workshop) {
  const Project& project = prepared.reading.project;
  const guide::PackingList& list = prepared.packing.value();
  Made made = typeset(guide::packing_slips(project, list, {workshop.draft}), "packing-slips",
                      "slips", prepared, workshop);
  made.files.push_back({project.id + "-parcels.csv", guide::parcels_csv(project, list)});
  return set_apart(std::move(made));
}

Made make_labels(const Prepared& prepared, const Workshop& workshop) {
  const Project& project = prepared.reading.project;
  const guide::PackingList& list = prepared.packing.value();
  const bool any =
      !list.parcels.parcels.empty() ||
      (project.run.orders.empty() &&
       std::any_of(list.parcels.kinds.begin(), list.parcels.kinds.end(),
                   [&](const supply::KitKind& kind) {
                     return project.tiers.at(as_index(kind.tier)).shipping != Tier::Shipping::None;
                   }));
  if (!any) return {}; // no parcels, no labels
  return set_apart(typeset(guide::parcel_labels(project, list, {workshop.draft}), "labels",
                           "labels", prepared, workshop));
}

Made make_totals(const Prepared& prepared, const Workshop& workshop) {
  const Project& project = prepared.reading.project;
  const guide::PackingList& list = prepared.packing.value();
  Made made = typeset(guide::totals(project, list, {workshop.draft}), "totals", "workshop",
                      prepared, workshop);
  made.files.push_back({project.id + "-totals.csv", guide::totals_csv(project, list)});
  return made;
}

Made make_calendar(const Prepared& prepared, const Workshop& workshop) {
  const Project& project = prepared.reading.project;
  const calendar::DayPlan plan = day_plan(prepared);
  Made made = typeset(guide::calendar_page(project, plan, {workshop.draft}), "calendar", "workshop",
                      prepared, workshop);
  append(made.findings, plan.findings);
  made.files.push_back({project.id + "-calendar.ics",
                        calendar::icalendar_text(project, plan, stamp_of(project, workshop))});
  return made;
}

Made make_run_sheet(const Prepared& prepared, const Workshop& workshop) {
  return typeset(guide::run_sheet(prepared.reading.project, {workshop.draft}), "run-sheet",
                 "workshop", prepared, workshop);
}

} // namespace leafwright::app
