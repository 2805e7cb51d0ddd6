#pragma once

#include "model/finding.h"
#include "read/source.h"

#include <string>
#include <string_view>

namespace leafwright::reading {

// Columns of one character on a terminal: 0 for combining marks and other invisible ones, 2 for
// East Asian wide and fullwidth ones and emoji, else 1. Ranges after UAX #11 (Unicode 15) and
// general category Mn, in blocks rather than single points.
int columns_of(char32_t c);

} // namespace leafwright::reading

// Findings as text for people and as JSON for programs, both from the same value.

namespace leafwright {

struct ReportStyle {
  int width = 100;     // of the source line in columns; longer lines are shown in part
  bool colour = false; // SGR codes of ECMA-48 around severity and caret
};

inline constexpr int finding_schema = 1; // of the JSON form

// file:line:column: severity: found; expected; mend [code]
//   the source line
//          ^^^^^
//   file:line:column: what the chain says
// Ends with a line end. Without a place the first part is left away; with a line of 0 it is the
// file alone. Tabs become blanks, broken bytes and control characters U+FFFD, so that nothing in a
// file can steer a terminal; wide characters count two columns.
std::string finding_text(const Finding& finding, const Sources& sources,
                         const ReportStyle& style = {});
// One JSON object and a line end: schema, severity, code, file, line, column, length, found,
// expected, mend, trace [{file, line, column, text}]. `file` is null where there is none.
std::string finding_json(const Finding& finding, const Sources& sources);

std::string_view severity_word(Severity severity); // "error", "warning", "note"
// "2 errors and 1 warning"; "no errors" when there are none.
std::string findings_summary(const Findings& findings);

// Columns that a terminal gives a text (UAX #11, wide and combining characters).
int display_width(std::string_view text);

} // namespace leafwright
