#pragma once

#include "model/project.h"

#include <string>

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

} // namespace leafwright::calendar
