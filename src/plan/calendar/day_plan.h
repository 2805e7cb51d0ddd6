#pragma once

#include "plan/calendar/work.h"
#include "plan/calendar/workdays.h"

#include <optional>
#include <string>
#include <vector>

// When what must happen: backwards from the day of posting, forwards from the reply-by date. Work
// fills whole days of the maker; supplies arrive the day before they are cut; parcels are posted
// the day after the last is closed.

namespace leafwright::calendar {

struct Entry {
  enum class Kind {
    ReplyBy,
    OrderSupplies,
    SuppliesHere,
    Cut,
    MakeReady,
    Pack,
    Post,
    ShipBy,
    Class
  };
  Kind kind = Kind::ReplyBy;
  Date first{}, last{};     // of the days it takes
  std::int64_t seconds = 0; // of work
  int supplier = -1;        // OrderSupplies: index into Run::suppliers
  int minutes = 0;          // Class: how long
};

struct DayPlan {
  std::vector<Entry> entries; // by date, then in the order of Entry::Kind
  Work work;
  int people = 1, minutes_a_day = 0;
  std::optional<Date> done_by;       // the last day of work
  std::optional<Date> earliest_post; // going forwards from the replies
  Findings findings;                 // "date-..."
};

// Without both dates of the run there is nothing but the work and the class.
DayPlan plan_days(const Project& project, const Work& work, const supply::Buying& buying);

} // namespace leafwright::calendar
