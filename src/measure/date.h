#pragma once

#include "measure/parsed.h"

#include <chrono>
#include <optional>
#include <string>
#include <string_view>

namespace leafwright {

using Date = std::chrono::year_month_day;

struct StatedDate {
  Date date{};
  std::optional<std::chrono::weekday> stated; // "Tue 2027-03-02": checked by a rule, not here
};
// ISO 8601 calendar date `2027-03-02`, optionally after an English weekday (`Tue`, `Tuesday`);
// from 1900 on.
Parsed<StatedDate> parse_date(std::string_view text);
std::string date_text(Date date);      // "2 March 2027"
std::string date_long_text(Date date); // "Tuesday 2 March 2027"
std::string iso_text(Date date);       // "2027-03-02"

} // namespace leafwright
