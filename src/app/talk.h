#pragma once

#include "app/arguments.h"
#include "app/run.h"
#include "measure/parsed.h"
#include "read/read.h"

#include <string_view>

namespace leafwright::app {

// Findings go to the error stream: as text, or one JSON object a line. Followed, in text, by one
// line that counts them.
void print_findings(const Findings& findings, const Sources& sources, const Arguments& arguments,
                    Surroundings& surroundings);
// "leafwright: <words>" on the error stream.
void complain(std::string_view words, Surroundings& surroundings);
void complain(const ParseError& why, Surroundings& surroundings);
// Whether the findings stop the work.
bool stops(const Findings& findings, const Arguments& arguments);

} // namespace leafwright::app
