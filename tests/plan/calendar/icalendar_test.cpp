#include "plan/calendar/icalendar.h"

#include "tools.h"

#include <doctest/doctest.h>

#include <chrono>
#include <fstream>
#include <string>

// Outside check: python3-icalendar (Debian) reads what is written here.

using namespace leafwright;
using namespace leafwright::calendar;

namespace {

Date day_of(unsigned month, unsigned number) {
  return std::chrono::year{2027} / std::chrono::month{month} / std::chrono::day{number};
}

Project project() {
  Project project;
  project.id = "orchard-gate";
  project.title = "Orchard Gate; four cards, \\ and a very long title that must be folded — Äpfel";
  project.edition = 3;
  project.run.suppliers.push_back({"Reed, Rule", 5, {}, {}});
  ClassDay class_day;
  class_day.start = 22 * 60 + 30;
  class_day.venue = "Upstairs,\nFenmoor";
  project.run.class_day = class_day;
  return project;
}

DayPlan plan() {
  DayPlan plan;
  plan.people = 2;
  plan.minutes_a_day = 240;
  plan.work.kits = 27;
  Entry order, cut, post, in_room;
  order.kind = Entry::Kind::OrderSupplies;
  order.first = order.last = day_of(3, 11);
  order.supplier = 0;
  cut.kind = Entry::Kind::Cut;
  cut.first = day_of(3, 30);
  cut.last = day_of(4, 1);
  cut.seconds = 40'800;
  post.kind = Entry::Kind::Post;
  post.first = post.last = day_of(4, 2);
  in_room.kind = Entry::Kind::Class;
  in_room.first = in_room.last = day_of(4, 17);
  in_room.minutes = 120;
  plan.entries = {order, cut, post, in_room};
  return plan;
}

constexpr std::string_view parser = R"PY(
import sys
from icalendar import Calendar
calendar = Calendar.from_ical(open(sys.argv[1], 'rb').read())
assert calendar['VERSION'] == '2.0' and 'PRODID' in calendar
for event in calendar.walk('VEVENT'):
    assert not event.errors, event.errors
    assert 'UID' in event and 'DTSTAMP' in event
    print('|'.join([str(event['UID']), str(event['DTSTART'].dt), str(event['DTEND'].dt),
                    str(event['DTSTAMP'].dt), str(event['SEQUENCE']), str(event['SUMMARY']),
                    str(event.get('LOCATION', '')).replace('\n', '/')]))
)PY";

} // namespace

TEST_CASE("an independent parser reads every event as it was meant") {
  if (tools::run_on({}, "/usr/bin/python3 -c 'import icalendar'").status != 0) {
    MESSAGE("python3-icalendar is not installed: the calendar file is not tested");
    return;
  }
  const tools::Folder folder;
  const std::string script = folder.path("read_events.py");
  std::ofstream(script, std::ios::binary) << parser;
  const std::string read = tools::run_on(icalendar_text(project(), plan(), 1'803'945'600),
                                         "/usr/bin/python3 '" + script + "' {}", ".ics")
                               .output;
  const std::string title =
      " (Orchard Gate; four cards, \\ and a very long title that must be folded — Äpfel)|";
  const std::string stamp = "|2027-03-02 00:00:00+00:00|3|";
  CHECK(read ==
        "orchard-gate.order-1@leafwright.invalid|2027-03-11|2027-03-12" + stamp +
            "Order from Reed, Rule" + title + "\n" +
            "orchard-gate.cut@leafwright.invalid|2027-03-30|2027-04-02" + stamp + "Cut paper" +
            title + "\n" + "orchard-gate.post@leafwright.invalid|2027-04-02|2027-04-03" + stamp +
            "Ship parcels" + title + "\n" +
            "orchard-gate.class@leafwright.invalid|2027-04-17 22:30:00|2027-04-18 00:30:00" +
            stamp + "Class" + title + "Upstairs,/Fenmoor\n");
}

TEST_CASE("no line is longer than 75 octets and none is cut inside a character") {
  const std::string text = icalendar_text(project(), plan(), 0);
  std::size_t from = 0;
  while (from < text.size()) {
    const std::size_t end = text.find("\r\n", from);
    REQUIRE(end != std::string::npos);
    CHECK(end - from <= 75);
    // A line never begins with a byte that continues a character.
    CHECK((static_cast<unsigned char>(text[from]) & 0xC0U) != 0x80U);
    from = end + 2;
  }
  CHECK(text.find("\n ") != std::string::npos); // something was folded
}

TEST_CASE("folding keeps every byte") {
  std::string line = "SUMMARY:";
  for (int i = 0; i < 60; ++i) line += "ä€x";
  std::string folded = folded_line(line);
  for (std::size_t at = folded.find("\r\n "); at != std::string::npos; at = folded.find("\r\n "))
    folded.erase(at, 3);
  CHECK(folded == line + "\r\n");
  CHECK(folded_line(std::string(75, 'x')) == std::string(75, 'x') + "\r\n");
  CHECK(folded_line(std::string(76, 'x')) == std::string(75, 'x') + "\r\n x\r\n");
}

TEST_CASE("text is escaped as RFC 5545 3.3.11 says, and controls are left out") {
  CHECK(escaped_text("a;b,c\\d\r\ne\nf\x07g") == "a\\;b\\,c\\\\d\\ne\\nfg");
}

TEST_CASE("the same project gives the same bytes") {
  CHECK(icalendar_text(project(), plan(), 5) == icalendar_text(project(), plan(), 5));
}

TEST_CASE("a later edition has a larger SEQUENCE and a later DTSTAMP for the same entry") {
  Project later = project();
  later.edition = 4;
  const std::string before = icalendar_text(project(), plan(), 1'803'945'600);
  const std::string after = icalendar_text(later, plan(), 1'803'945'600 + 86'400);
  const std::string_view same = "UID:orchard-gate.cut@leafwright.invalid\r\n";
  CHECK(before.find(same) != std::string::npos);
  CHECK(after.find(same) != std::string::npos);
  CHECK(before.find("SEQUENCE:3\r\n") != std::string::npos);
  CHECK(after.find("SEQUENCE:4\r\n") != std::string::npos);
  CHECK(before.find("DTSTAMP:20270302T000000Z\r\n") != std::string::npos);
  CHECK(after.find("DTSTAMP:20270303T000000Z\r\n") != std::string::npos);
}

TEST_CASE("without a day there is no calendar, since RFC 5545 3.4 wants a component in one") {
  CHECK(icalendar_text(project(), DayPlan{}, 0).empty());
}
