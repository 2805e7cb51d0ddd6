#include "show.h"

#include "measure/amounts/amounts.h"

#include <utility>

using namespace leafwright;
using namespace std::chrono_literals;
using leafwright::testing::refusal_of;
using leafwright::testing::value_of;

TEST_CASE("a date is year, month and day, with the weekday that the author believes it to be") {
  const StatedDate bare = value_of(parse_date("2027-03-02"));
  CHECK(bare.date == 2027y / std::chrono::March / 2d);
  CHECK_FALSE(bare.stated);
  for (std::string_view text : {"Tue 2027-03-02", "Tuesday 2027-03-02", "tuesday, 2027-03-02",
                                "Tues. 2027-03-02", " Tue\u00A02027-03-02 "}) {
    CAPTURE(text);
    const StatedDate read = value_of(parse_date(text));
    CHECK(read.date == bare.date);
    CHECK(read.stated == std::chrono::Tuesday);
  }
  // The calendar says Tuesday; a project that says Friday is a matter for a rule.
  CHECK(value_of(parse_date("Fri 2027-03-02")).stated == std::chrono::Friday);
}

TEST_CASE("a date that is none, or can be read two ways, is refused") {
  const std::string shape = "write four digits for the year, two for the month, two for the day";
  const std::pair<std::string_view, std::string> wrongs[] = {
      {"", shape},
      {"2027-3-2", shape},
      {"02/03/2027", shape},
      {"2027-03", shape},
      {"20270302", shape},
      {"2027-03-021", shape},
      {"12027-03-02", shape},
      {"2027-03-02T10:00", shape},
      {"Tue", shape},
      {"Mar 2027-03-02", "only the name of a weekday may stand before the date"},
      {"Tu 2027-03-02", "only the name of a weekday may stand before the date"},
      {"Tuesdays 2027-03-02", "only the name of a weekday may stand before the date"},
      {"2027-03-02 Tue", "nothing may follow the date; a weekday stands before it"},
      {"2027-13-02", "months run from 01 to 12"},
      {"2027-00-02", "months run from 01 to 12"},
      {"2027-02-29", "2027-02 has the days 01 to 28"},
      {"2028-02-30", "2028-02 has the days 01 to 29"},
      {"2027-04-31", "2027-04 has the days 01 to 30"},
      {"2027-04-00", "2027-04 has the days 01 to 30"},
      {"0027-04-01", "check the year; this one is long past"},
  };
  for (const auto& row : wrongs) {
    const auto& text = row.first;
    const auto& fix = row.second;
    CAPTURE(text);
    CHECK(refusal_of(parse_date(text)).fix == fix);
  }
  CHECK(refusal_of(parse_date("Tue 2027-02-29")).at == 4);
}

TEST_CASE("dates print by ISO 8601, also one that is not in the calendar") {
  CHECK(iso_text(2027y / std::chrono::March / 2d) == "2027-03-02");
  CHECK(iso_text(Date{}) == "0000-00-00");
}

TEST_CASE("every day of four hundred years reads back, with its weekday, as it was printed") {
  // The Gregorian calendar repeats after 400 years, which are 146 097 days.
  std::chrono::sys_days day{2000y / std::chrono::January / 1d};
  for (int i = 0; i < 146'097; ++i, day += std::chrono::days(1)) {
    const Date date{day};
    const StatedDate read = value_of(
        parse_date(fmt::format("{} {}", weekday_name(std::chrono::weekday(day)), iso_text(date))));
    if (read.date != date || read.stated != std::chrono::weekday(day)) FAIL(iso_text(date));
  }
  CHECK(Date{day} == 2400y / std::chrono::January / 1d);
}
