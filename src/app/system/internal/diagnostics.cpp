#include "app/system/diagnostics.h"

#include "read/read.h"

#include <fmt/format.h>

#include <iterator>
#include <ostream>
#include <utility>

namespace leafwright::app {

namespace {

// An option of the command line wins over NO_COLOR, which wins over the terminal (no-color.org: set
// and not empty).
bool coloured(const Arguments& arguments, const Environment& environment) {
  if (!arguments.colour.empty()) return arguments.colour == "yes";
  if (environment.no_color != nullptr && *environment.no_color != '\0') return false;
  return environment.error_is_terminal;
}

} // namespace

void print_findings(const Findings& findings, const Sources& sources, const Arguments& arguments,
                    Environment& environment) {
  ReportStyle style;
  style.colour = coloured(arguments, environment);
  for (const Finding& finding : findings)
    environment.error << (arguments.json() ? finding_json(finding, sources)
                                           : finding_text(finding, sources, style));
  if (!findings.empty() && !arguments.json())
    environment.error << findings_summary(findings) << '\n';
}

void report(std::string_view words, Environment& environment) {
  environment.error << "leafwright: " << words << '\n';
}

void report(const ParseError& why, Environment& environment) {
  report(fmt::format("{}; {}", why.found, why.fix.empty() ? why.expected : why.fix), environment);
}

void append(Findings& to, Findings from) {
  to.insert(to.end(), std::make_move_iterator(from.begin()), std::make_move_iterator(from.end()));
}

bool stops(const Findings& findings, const Arguments& arguments) {
  for (const Finding& finding : findings)
    if (finding.severity == Severity::Error ||
        (arguments.strict && finding.severity == Severity::Warning))
      return true;
  return false;
}

} // namespace leafwright::app
