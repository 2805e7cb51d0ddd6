#include "language/english.h"
#include "plan/fit/internal/rules.h"

#include <fmt/format.h>

#include <chrono>
#include <optional>

namespace leafwright::fit {

namespace {

// The nearest date that falls on `day`.
Date nearest_on(Date date, std::chrono::weekday day) {
  const std::chrono::sys_days from{date};
  for (int off = 0; off <= 3; ++off)
    for (const int sign : {1, -1}) {
      const std::chrono::sys_days there = from + std::chrono::days{off * sign};
      if (std::chrono::weekday{there} == day) return Date{there};
    }
  return date;
}

void check_weekday(const Project& project, const std::optional<StatedDate>& stated, Place place,
                   const char* what, Reporter& report) {
  if (!stated || !stated->stated || !stated->date.ok()) return;
  const std::chrono::weekday real{std::chrono::sys_days{stated->date}};
  if (real == *stated->stated) return;
  report(place,
         fmt::format("{} says {}, but {} is a {}", what, weekday_name(*stated->stated),
                     words::day_text(project.language, stated->date), weekday_name(real)),
         "a weekday that agrees with its date",
         fmt::format(
             "write {}, or {}", words::long_day_text(project.language, stated->date),
             words::long_day_text(project.language, nearest_on(stated->date, *stated->stated))));
}

} // namespace

void weekday_contradicts(const Project& project, const supply::CuttingPlan*, Reporter& report) {
  const Run& run = project.run;
  check_weekday(project, run.reply_by, known(run.reply_by_place, run.place), "reply-by", report);
  check_weekday(project, run.ship_by, known(run.ship_by_place, run.place), "ship-by", report);
}

void reply_after_ship(const Project& project, const supply::CuttingPlan*, Reporter& report) {
  const Run& run = project.run;
  if (!run.reply_by || !run.ship_by || run.reply_by->date <= run.ship_by->date) return;
  const auto day = [&](Date date) { return words::day_text(project.language, date); };
  Finding& finding = report(known(run.reply_by_place, run.place),
                            fmt::format("orders close on {}, after kits go out on {}",
                                        day(run.reply_by->date), day(run.ship_by->date)),
                            "an order-by date before the ship-by date",
                            fmt::format("close orders by {}, or ship on {} or later",
                                        day(run.ship_by->date), day(run.reply_by->date)));
  finding.trace.push_back({known(run.ship_by_place, run.place), "ship-by is written here"});
}

} // namespace leafwright::fit
