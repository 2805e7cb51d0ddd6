#include "language/english.h"
#include "plan/calendar/day_plan.h"

#include "plan/calendar/icalendar.h"

#include <doctest/doctest.h>

#include <chrono>
#include <string>

using namespace leafwright;
using namespace leafwright::calendar;

// March 2027: the 1st is a Monday; Good Friday is the 26th, Easter Monday the 29th (computus).

namespace {

Date day(unsigned month, unsigned number) {
  return std::chrono::year{2027} / std::chrono::month{month} / std::chrono::day{number};
}

// Four hours a day, Monday to Friday; one supplier who takes five working days.
struct Case {
  Project project;
  calendar::WorkTime work;
  supply::Buying buying;

  Case() {
    Run& run = project.run;
    project.stocks.resize(1);
    run.place = {0, 1, 1, 1};
    run.suppliers.push_back({"Reed and Rule", 5, {}, {}});
    supply::Purchase purchase;
    purchase.packs = 1;
    buying.purchases = {purchase};
    work.kits = 10;
    work.parcels = 10;
    work.cutting = 6 * 3600; // a day and a half
    work.packing = 4 * 3600; // a day
  }
  DayPlan plan() const { return plan_days(project, work, buying); }
};

const Entry& entry(const DayPlan& plan, Entry::Kind kind) {
  for (const Entry& one : plan.entries)
    if (one.kind == kind) return one;
  FAIL("no such entry");
  return plan.entries.front();
}

} // namespace

TEST_CASE("backwards from posting: packing, cutting, arrival and order, weekends left out") {
  Case one;
  one.project.run.ship_by = StatedDate{day(3, 24), {}}; // Wednesday
  const DayPlan plan = one.plan();
  CHECK(plan.findings.empty());
  // Ten hours are two and a half days: the last hours on Tuesday, the first on Friday.
  CHECK(entry(plan, Entry::Kind::Post).first == day(3, 24));
  CHECK(entry(plan, Entry::Kind::Pack).first == day(3, 23));
  CHECK(entry(plan, Entry::Kind::Pack).last == day(3, 23));
  CHECK(entry(plan, Entry::Kind::Cut).last == day(3, 22));
  CHECK(entry(plan, Entry::Kind::Cut).first == day(3, 19));
  CHECK(entry(plan, Entry::Kind::SuppliesHere).first == day(3, 18));
  CHECK(entry(plan, Entry::Kind::OrderSupplies).first == day(3, 11)); // five working days earlier
  CHECK(*plan.done_by == day(3, 23));
}

TEST_CASE("days off are left out, for the maker, the carrier and the supplier") {
  Case one;
  one.project.run.days_off.push_back({day(3, 26), day(3, 29), "Easter", {}});
  one.project.run.ship_by = StatedDate{day(3, 30), {}}; // the Tuesday after Easter
  const DayPlan plan = one.plan();
  CHECK(entry(plan, Entry::Kind::Pack).first == day(3, 25)); // Thursday before
  CHECK(entry(plan, Entry::Kind::Cut).last == day(3, 24));
  CHECK(entry(plan, Entry::Kind::Cut).first == day(3, 23));
}

TEST_CASE("a maker who works on Saturdays has more days than the carrier") {
  Case one;
  one.project.run.work.works[6] = true;
  one.project.run.ship_by = StatedDate{day(3, 22), {}}; // Monday
  const DayPlan plan = one.plan();
  CHECK(entry(plan, Entry::Kind::Pack).first == day(3, 20)); // Saturday
}

TEST_CASE("two people take half as long") {
  Case one;
  one.project.run.work.people = 2;
  one.project.run.ship_by = StatedDate{day(3, 24), {}};
  const DayPlan plan = one.plan();
  CHECK(entry(plan, Entry::Kind::Cut).first == day(3, 22));
}

TEST_CASE("forwards from the replies when nothing is promised") {
  Case one;
  one.project.run.reply_by = StatedDate{day(3, 5), {}}; // Friday
  const DayPlan plan = one.plan();
  CHECK(entry(plan, Entry::Kind::OrderSupplies).first == day(3, 8));
  CHECK(entry(plan, Entry::Kind::SuppliesHere).first == day(3, 15));
  CHECK(entry(plan, Entry::Kind::Cut).first == day(3, 16));
  CHECK(entry(plan, Entry::Kind::Pack).last == day(3, 18));
  CHECK(entry(plan, Entry::Kind::Post).first == day(3, 19));
}

TEST_CASE("supplies that come too late are a finding with the days and the ways out") {
  Case one;
  one.project.run.reply_by = StatedDate{day(3, 12), {}}; // Friday
  one.project.run.ship_by = StatedDate{day(3, 24), {}};
  const DayPlan plan = one.plan();
  REQUIRE(plan.findings.size() == 1);
  CHECK(plan.findings[0].code == "date-supplies-late");
  // Ordered on Monday the 15th they are here on Monday the 22nd; cutting starts on Friday the 19th.
  CHECK(plan.findings[0].found.find("3 days after cutting starts") != std::string::npos);
  CHECK(plan.findings[0].fix.find("orders by Wednesday, March 10, 2027") != std::string::npos);
  CHECK(plan.findings[0].fix.find("ship by Friday, March 26, 2027") != std::string::npos);

  Case mended;
  mended.project.run.reply_by = StatedDate{day(3, 10), {}};
  mended.project.run.ship_by = StatedDate{day(3, 24), {}};
  CHECK(mended.plan().findings.empty());
  Case later;
  later.project.run.reply_by = StatedDate{day(3, 12), {}};
  later.project.run.ship_by = StatedDate{day(3, 26), {}};
  CHECK(later.plan().findings.empty());
}

TEST_CASE("a day on which no parcel is taken is a finding, and the day before is planned") {
  Case one;
  one.project.run.ship_by = StatedDate{day(3, 27), {}}; // Saturday
  const DayPlan plan = one.plan();
  REQUIRE(plan.findings.size() == 1);
  CHECK(plan.findings[0].code == "date-no-post");
  CHECK(plan.findings[0].found.find("a Saturday") != std::string::npos);
  CHECK(entry(plan, Entry::Kind::Post).first == day(3, 26));
}

TEST_CASE("posting before the replies is a finding") {
  Case one;
  one.project.run.reply_by = StatedDate{day(3, 24), {}};
  one.project.run.ship_by = StatedDate{day(3, 12), {}};
  const DayPlan plan = one.plan();
  REQUIRE(plan.findings.size() == 1);
  CHECK(plan.findings[0].code == "date-order");
}

TEST_CASE("a class on another weekday than its date is a finding") {
  Case one;
  ClassDay class_day;
  class_day.date = StatedDate{day(4, 17), std::chrono::Sunday}; // a Saturday
  one.project.run.class_day = class_day;
  const DayPlan plan = one.plan();
  REQUIRE(plan.findings.size() == 1);
  CHECK(plan.findings[0].code == "date-weekday");
}

TEST_CASE("more work than a year of days ends somewhere") {
  Case one;
  one.work.cutting = std::int64_t{4000} * 3600;
  one.project.run.ship_by = StatedDate{day(3, 24), {}};
  const DayPlan plan = one.plan();
  CHECK(entry(plan, Entry::Kind::Cut).first < day(1, 1));
}

TEST_CASE("durations are said in hours and minutes, begun minutes counting") {
  CHECK(words::duration_text(40'800) == "11\u00A0h 20\u00A0min");
  CHECK(words::duration_text(3600) == "1\u00A0h");
  CHECK(words::duration_text(61) == "2\u00A0min");
}
