#include "plan/calendar/day_plan.h"

#include <algorithm>
#include <array>
#include <chrono>
#include <iterator>

namespace leafwright::calendar {

namespace {

// No holiday is longer; beyond it a day is taken as it comes.
constexpr int most_steps = 1000;

unsigned weekday_of(Date date) {
  return std::chrono::weekday{std::chrono::sys_days{date}}.c_encoding();
}

template <class Fits>
Date walk(Date date, int step, Fits fits) {
  Date at = date;
  for (int i = 0; i < most_steps; ++i, at = days_after(at, step))
    if (fits(at)) return at;
  return date;
}

} // namespace

Date days_after(Date date, int days) {
  return Date{std::chrono::sys_days{date} + std::chrono::days{days}};
}

int days_between(Date from, Date to) {
  return static_cast<int>((std::chrono::sys_days{to} - std::chrono::sys_days{from}).count());
}

const DaysOff* Workdays::off(Date date) const {
  for (const DaysOff& days : run_.days_off)
    if (days.first <= date && date <= days.last) return &days;
  return nullptr;
}

bool Workdays::works(Date date) const {
  const auto& works = run_.work.works;
  const bool any = std::any_of(std::begin(works), std::end(works), [](bool one) { return one; });
  return (!any || works[weekday_of(date)]) && !off(date);
}

bool Workdays::delivers(Date date) const {
  const unsigned day = weekday_of(date);
  return day >= 1 && day <= 5 && !off(date);
}

Date Workdays::work_by(Date date) const {
  return walk(date, -1, [&](Date at) { return works(at); });
}
Date Workdays::work_from(Date date) const {
  return walk(date, 1, [&](Date at) { return works(at); });
}
Date Workdays::delivery_by(Date date) const {
  return walk(date, -1, [&](Date at) { return delivers(at); });
}
Date Workdays::delivery_from(Date date) const {
  return walk(date, 1, [&](Date at) { return delivers(at); });
}

Date Workdays::deliveries_before(Date date, int days) const {
  Date at = delivery_by(date);
  for (int i = 0; i < days; ++i) at = delivery_by(days_after(at, -1));
  return at;
}
Date Workdays::deliveries_after(Date date, int days) const {
  Date at = delivery_from(date);
  for (int i = 0; i < days; ++i) at = delivery_from(days_after(at, 1));
  return at;
}

std::string Workdays::why_no_delivery(Date date) const {
  if (const DaysOff* days = off(date)) return days->words.empty() ? "a day off" : days->words;
  const std::chrono::weekday day{weekday_of(date)};
  const bool weekend = day == std::chrono::Saturday || day == std::chrono::Sunday;
  return weekend ? "a " + std::string(weekday_name(day)) : "";
}

} // namespace leafwright::calendar
