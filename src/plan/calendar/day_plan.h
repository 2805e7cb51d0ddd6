#pragma once

#include "model/project.h"
#include "plan/calendar/work_time.h"

#include <optional>
#include <string>
#include <vector>

// Which days count.

namespace leafwright::calendar {

class Workdays {
 public:
  explicit Workdays(const Run& run) : run_(run) {}

  bool works(Date date) const;    // the maker
  bool delivers(Date date) const; // carriers and suppliers: Monday to Friday
  // The nearest such day at or before (after) the date. A maker who works on no day at all is taken
  // to work on every one.
  Date work_by(Date date) const;
  Date work_from(Date date) const;
  Date delivery_by(Date date) const;
  Date delivery_from(Date date) const;
  // `days` deliveries days earlier (later) than a delivery day.
  Date deliveries_before(Date date, int days) const;
  Date deliveries_after(Date date, int days) const;
  // Why nothing moves on that day: "Good Friday", "a Saturday"; empty when something does.
  std::string why_no_delivery(Date date) const;

 private:
  const DaysOff* off(Date date) const;
  const Run& run_;
};

Date days_after(Date date, int days); // calendar days; negative goes back
int days_between(Date from, Date to);

// When what must happen: backwards from the day of posting, forwards from the reply-by date. Work
// fills whole days of the maker; supplies arrive the day before they are cut; parcels are posted
// the day after the last is closed.

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
  WorkTime work;
  int people = 1, minutes_a_day = 0;
  std::optional<Date> done_by;       // the last day of work
  std::optional<Date> earliest_post; // going forwards from the replies
  Findings findings;                 // "date-..."
};

// The supplier of a thing: one that names it, else the first for everything; -1: none.
int supplier_of(const Run& run, ItemRef item);

// Without both dates of the run there is nothing but the work and the class.
DayPlan plan_days(const Project& project, const WorkTime& work, const supply::Buying& buying);

} // namespace leafwright::calendar
