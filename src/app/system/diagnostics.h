#pragma once

#include "app/system/arguments.h"
#include "app/system/environment.h"
#include "basics/parsed.h"
#include "model/finding.h"
#include "read/read.h"

#include <string_view>

// What the program says about a project and about itself, all of it on the error stream.
//
//   print_findings(planned.findings, planned.reading.sources, arguments, environment);
//   if (stops(planned.findings, arguments)) return FoundErrors;
//   report("nothing was written", environment); // leafwright: nothing was written

namespace leafwright::app {

// As text with a line at the end that counts them, or (--format json) one JSON object a line.
void print_findings(const Findings& findings, const Sources& sources, const Arguments& arguments,
                    Environment& environment);

// "leafwright: <words>".
void report(std::string_view words, Environment& environment);
void report(const ParseError& why, Environment& environment);

// Whether the findings stop the work: errors do, with --strict warnings too.
bool stops(const Findings& findings, const Arguments& arguments);

void append(Findings& to, Findings from);

} // namespace leafwright::app
