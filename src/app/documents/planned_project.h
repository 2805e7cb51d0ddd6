#pragma once

#include "guide/parcels/parcel_documents.h"
#include "plan/calendar/day_plan.h"
#include "plan/supply/buying.h"
#include "plan/supply/sheets.h"
#include "read/read.h"

#include <optional>
#include <string>
#include <vector>

// A project read, planned and checked: what every document starts from. What is amiss stands among
// the findings; nothing here prints or throws.
//
//   PlannedProject planned = plan_project("project.xml", {"mat.width=4in"});
//   if (planned.reading.ok()) plan_run(planned, line.effort()); // only where the run is shown

namespace leafwright::app {

struct PlannedProject {
  Reading reading;
  supply::CuttingPlan sheets; // of one kit
  Findings findings;          // of reading and of the rules, in that order
  // What the whole run takes, with findings of its own: worked out only for the documents that need
  // it. They stay apart from `findings`, so that a tutorial is the same whatever is made beside it.
  std::optional<supply::Buying> buying;
  // What is packed for whom, and what is amiss with the orders: by take_orders(), likewise.
  std::optional<guide::PackingList> packing;
  Findings order_findings;
};

// With errors of reading the plan is left out: it would speak of things that are not there.
// `kept` is from planning an earlier state, and serves the next; it changes nothing.
PlannedProject plan_project(const std::string& path, const std::vector<std::string>& overrides,
                            supply::PlanCache* kept = nullptr);
PlannedProject plan_project(Reading reading, supply::PlanCache* kept = nullptr);

// Adds the buying and cutting of the kits that are ordered or, before that, expected. Takes seconds
// where a stock is hard to cut well; the effort is for each stock.
void plan_run(PlannedProject& planned, const cut::Effort& effort);

// Reads the roster of the project, adds its orders to those of the project and makes parcels of
// all. Only for documents that need them: a tutorial is the same whoever ordered it.
void take_orders(PlannedProject& planned);

// The days of the work. Needs PlannedProject::buying.
calendar::DayPlan day_plan(const PlannedProject& planned);

// What is amiss with the dates, as the calendar says it. Whether the work can be done between both
// dates depends on how long it takes: where both are given the run is planned, briefly if that
// will do. PlannedProject::buying is not kept.
Findings check_dates(PlannedProject& planned, const cut::Effort& effort);

} // namespace leafwright::app
