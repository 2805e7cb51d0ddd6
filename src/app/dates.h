#pragma once

#include "app/prepare.h"
#include "plan/calendar/day_plan.h"

#include <cstdint>

namespace leafwright::app {

// The days of the work. Needs Prepared::buying.
calendar::DayPlan day_plan(const Prepared& prepared);

// What is amiss with the dates, as the calendar says it. Whether the work can be done between both
// dates depends on how long it takes: where both are given the run is planned, in haste if that
// will do. Prepared::buying is not kept.
Findings check_dates(Prepared& prepared, const cut::Effort& effort);

} // namespace leafwright::app
