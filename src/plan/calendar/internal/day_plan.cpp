#include "plan/calendar/day_plan.h"

#include "language/agreement.h"
#include "language/english.h"
#include "measure/index.h"
#include "plan/calendar/work_time.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <set>
#include <tuple>
#include <utility>

namespace leafwright::calendar {

int supplier_of(const Run& run, ItemRef item) {
  int any = -1;
  for (std::size_t i = 0; i < run.suppliers.size(); ++i) {
    const Supplier& one = run.suppliers[i];
    if (std::find(one.items.begin(), one.items.end(), item) != one.items.end())
      return static_cast<int>(i);
    if (one.items.empty() && any < 0) any = static_cast<int>(i);
  }
  return any;
}

namespace {

// Beyond ten years of work the days are of no use to anybody.
constexpr int most_days = 4000;

struct Phase {
  Entry::Kind kind;
  std::int64_t seconds;
  Date first{}, last{};
};

class Planner {
 public:
  Planner(const Project& project, const WorkTime& work, const supply::Buying& buying)
      : project_(project), run_(project.run), days_(project.run) {
    plan_.work = work;
    plan_.people = run_.work.people;
    plan_.minutes_a_day = run_.work.minutes_a_day;
    for (const supply::Purchase& purchase : buying.purchases)
      if (const int supplier = supplier_of(run_, purchase.item); supplier >= 0)
        suppliers_.insert(supplier);
    for (const int supplier : suppliers_)
      lead_ = std::max(lead_, run_.suppliers[as_index(supplier)].lead_days);
  }

  DayPlan plan() {
    const bool order = in_order();
    if (run_.reply_by) add(Entry::Kind::ReplyBy, run_.reply_by->date, run_.reply_by->date);
    if (run_.ship_by && order)
      backwards();
    else if (run_.reply_by && order)
      forwards();
    else if (run_.ship_by)
      add(Entry::Kind::ShipBy, run_.ship_by->date, run_.ship_by->date);
    class_day();
    std::stable_sort(plan_.entries.begin(), plan_.entries.end(), [](const auto& a, const auto& b) {
      return std::tuple(a.first, a.kind, a.supplier) < std::tuple(b.first, b.kind, b.supplier);
    });
    return std::move(plan_);
  }

 private:
  std::vector<Phase> phases() const {
    std::vector<Phase> phases;
    const WorkTime& work = plan_.work;
    if (work.cutting > 0) phases.push_back({Entry::Kind::Cut, work.cutting, {}, {}});
    if (work.readying > 0) phases.push_back({Entry::Kind::MakeReady, work.readying, {}, {}});
    if (work.packing > 0) phases.push_back({Entry::Kind::Pack, work.packing, {}, {}});
    return phases;
  }

  std::int64_t capacity() const {
    return std::int64_t{60} * std::max(run_.work.minutes_a_day, 1) * std::max(run_.work.people, 1);
  }

  void add(Entry::Kind kind, Date first, Date last, std::int64_t seconds = 0, int supplier = -1) {
    Entry entry;
    entry.kind = kind;
    entry.first = first;
    entry.last = last;
    entry.seconds = seconds;
    entry.supplier = supplier;
    plan_.entries.push_back(entry);
  }

  void tell(std::string code, Place place, std::string found, std::string expected,
            std::string fix) {
    plan_.findings.push_back({Severity::Warning,
                              std::move(code),
                              place.line > 0 ? place : run_.place,
                              std::move(found),
                              std::move(expected),
                              std::move(fix),
                              {}});
  }

  std::string said(Date date) const { return words::long_day_text(project_.language, date); }

  bool in_order() {
    if (!run_.reply_by || !run_.ship_by || run_.reply_by->date < run_.ship_by->date) return true;
    tell("date-order", run_.ship_by_place,
         fmt::format("kits ship by {}, but orders come in until {}", said(run_.ship_by->date),
                     said(run_.reply_by->date)),
         "a ship-by date after the reply-by date", "swap the two dates, or move one");
    return false;
  }

  // Days filled from the end; returns the first day of work.
  Date fill_backwards(std::vector<Phase>& phases, Date last) const {
    Date day = days_.work_by(last);
    std::int64_t left = capacity();
    for (auto phase = phases.rbegin(); phase != phases.rend(); ++phase) {
      const auto step = [&] {
        day = days_.work_by(days_after(day, -1));
        left = capacity();
      };
      if (left == 0) step();
      phase->last = day;
      std::int64_t wanted = phase->seconds;
      for (int days = 0; wanted > left && days < most_days; ++days) {
        wanted -= left;
        step();
      }
      wanted = std::min(wanted, left);
      left -= wanted;
      phase->first = day;
    }
    return day;
  }

  Date fill_forwards(std::vector<Phase>& phases, Date first) const {
    Date day = days_.work_from(first);
    std::int64_t left = capacity();
    for (Phase& phase : phases) {
      const auto step = [&] {
        day = days_.work_from(days_after(day, 1));
        left = capacity();
      };
      if (left == 0) step();
      phase.first = day;
      std::int64_t wanted = phase.seconds;
      for (int days = 0; wanted > left && days < most_days; ++days) {
        wanted -= left;
        step();
      }
      wanted = std::min(wanted, left);
      left -= wanted;
      phase.last = day;
    }
    return day;
  }

  void add_phases(const std::vector<Phase>& phases) {
    for (const Phase& phase : phases) add(phase.kind, phase.first, phase.last, phase.seconds);
    if (!phases.empty()) plan_.done_by = phases.back().last;
  }

  // Forwards: the day supplies can be here when they are ordered once the replies are in.
  struct Forward {
    Date ordered{}, here{}, post{};
    std::vector<Phase> phases;
  };
  Forward forward_from(Date reply_by) const {
    Forward way;
    way.ordered = days_.delivery_from(days_after(reply_by, 1));
    way.here = days_.deliveries_after(way.ordered, lead_);
    way.phases = phases();
    // What lies in the shop round the corner can be cut the day it is bought.
    const Date begin = lead_ > 0 ? days_after(way.here, 1) : way.here;
    const Date done = fill_forwards(way.phases, begin);
    way.post = days_.delivery_from(days_after(done, 1));
    return way;
  }

  void forwards() {
    Forward way = forward_from(run_.reply_by->date);
    for (const int supplier : suppliers_)
      add(Entry::Kind::OrderSupplies, way.ordered, way.ordered, 0, supplier);
    if (!suppliers_.empty()) add(Entry::Kind::SuppliesHere, way.here, way.here);
    add_phases(way.phases);
    add(Entry::Kind::Post, way.post, way.post);
    plan_.earliest_post = way.post;
  }

  void backwards() {
    const Date ship_by = run_.ship_by->date;
    const Date post = days_.delivery_by(ship_by);
    if (post != ship_by) {
      tell("date-no-post", run_.ship_by_place,
           fmt::format("kits are to ship by {}, {}", said(ship_by), days_.why_no_delivery(ship_by)),
           "a day when the carrier takes parcels", fmt::format("the plan ships on {}", said(post)));
      add(Entry::Kind::ShipBy, ship_by, ship_by);
    }
    std::vector<Phase> steps = phases();
    const Date begin = fill_backwards(steps, days_after(post, -1));
    const Date here = days_.delivery_by(days_after(begin, lead_ > 0 ? -1 : 0));
    for (const int supplier : suppliers_) {
      const int lead = run_.suppliers[as_index(supplier)].lead_days;
      const Date by = days_.deliveries_before(here, lead);
      add(Entry::Kind::OrderSupplies, by, by, 0, supplier);
    }
    if (!suppliers_.empty()) add(Entry::Kind::SuppliesHere, here, here);
    add_phases(steps);
    add(Entry::Kind::Post, post, post);
    if (run_.reply_by) compare(begin, here, post);
  }

  void compare(Date begin, Date here, Date post) {
    const Forward way = forward_from(run_.reply_by->date);
    plan_.earliest_post = way.post;
    if (way.post <= post) return;
    const Date reply = days_after(days_.deliveries_before(here, lead_), -1);
    const std::string ways =
        fmt::format("ask for orders by {}, or ship by {}{}", said(reply), said(way.post),
                    lead_ > 0 ? ", or order what is certain before all orders are in" : "");
    if (way.here >= begin && lead_ > 0) {
      const int late = days_between(begin, way.here);
      tell("date-supplies-late", run_.ship_by_place,
           late == 0
               ? fmt::format("supplies would arrive on {}, the day cutting starts", said(way.here))
               : fmt::format("supplies would arrive {} {} after cutting starts: on {}, "
                             "instead of before {}",
                             late, words::noun_for(late, "day"), said(way.here), said(begin)),
           fmt::format("supplies here by {}", said(here)), ways);
      return;
    }
    tell("date-no-time", run_.ship_by_place,
         fmt::format("the work gets done in time to ship on {}", said(way.post)),
         fmt::format("kits shipped by {}", said(post)), ways);
  }

  void class_day() {
    if (!run_.class_day || !run_.class_day->date) return;
    const ClassDay& day = *run_.class_day;
    add(Entry::Kind::Class, day.date->date, day.date->date);
    const Timetable timetable = timetable_of(project_);
    plan_.entries.back().minutes = timetable.minutes();
    const std::chrono::weekday real{std::chrono::sys_days{day.date->date}};
    if (!day.date->stated || *day.date->stated == real) return;
    tell("date-weekday", day.date_place,
         fmt::format("a weekday beside {} that is not its own", iso_text(day.date->date)),
         fmt::format("it is {}", said(day.date->date)), "mend the weekday or the date");
  }

  const Project& project_;
  const Run& run_;
  Workdays days_;
  std::set<int> suppliers_; // of what is bought, ascending
  int lead_ = 0;            // the longest of theirs
  DayPlan plan_;
};

} // namespace

DayPlan plan_days(const Project& project, const WorkTime& work, const supply::Buying& buying) {
  return Planner(project, work, buying).plan();
}

} // namespace leafwright::calendar
