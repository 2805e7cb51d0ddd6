#pragma once

#include "plan/calendar/day_plan.h"

#include <cstdint>
#include <string>
#include <string_view>

// The dates as a calendar file (RFC 5545). No buyer's name is in it.

namespace leafwright::calendar {

// `stamp`: seconds since 1970, UTC, for DTSTAMP (3.8.7.2). UIDs (3.8.4.7) come from the project's
// id and what is to be done, so that a file made again replaces what was read before; SEQUENCE is
// the edition (3.8.7.4), so that a change reaches a calendar that holds the old days when edition
// and date go up with it. A calendar must hold something (3.4): without a day there is no file, and
// the text is empty for the caller to say so. Days without an hour are VALUE=DATE with an exclusive
// end (3.6.1); the class is at local time wherever it is read (3.3.5, form 1).
std::string icalendar_text(const Project& project, const DayPlan& plan, std::int64_t stamp);

// "Cut paper", "Order from Reed and Rule"
std::string entry_title(const Project& project, const Entry& entry);

// One content line, folded at 75 octets between characters, with its CRLF (3.1).
std::string folded_line(std::string_view line);
// TEXT with backslash, semicolon, comma and line ends escaped (3.3.11); other controls left out.
std::string escaped_text(std::string_view text);

} // namespace leafwright::calendar
