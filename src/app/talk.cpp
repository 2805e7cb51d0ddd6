#include "app/talk.h"

#include "read/report.h"

#include <fmt/format.h>

#include <ostream>

namespace leafwright::app {

namespace {

// An option of the command line wins over NO_COLOR, which wins over the terminal (no-color.org: set
// and not empty).
bool coloured(const Arguments& arguments, const Surroundings& surroundings) {
  if (arguments.colour) return *arguments.colour;
  if (surroundings.no_color != nullptr && *surroundings.no_color != '\0') return false;
  return surroundings.error_is_terminal;
}

} // namespace

void print_findings(const Findings& findings, const Sources& sources, const Arguments& arguments,
                    Surroundings& surroundings) {
  ReportStyle style;
  style.colour = coloured(arguments, surroundings);
  for (const Finding& finding : findings)
    surroundings.error << (arguments.json ? finding_json(finding, sources)
                                          : finding_text(finding, sources, style));
  if (!findings.empty() && !arguments.json)
    surroundings.error << findings_summary(findings) << '\n';
}

void complain(std::string_view words, Surroundings& surroundings) {
  surroundings.error << "leafwright: " << words << '\n';
}

void complain(const ParseError& why, Surroundings& surroundings) {
  complain(fmt::format("{}; {}", why.found, why.fix.empty() ? why.expected : why.fix),
           surroundings);
}

bool stops(const Findings& findings, const Arguments& arguments) {
  for (const Finding& finding : findings)
    if (finding.severity == Severity::Error ||
        (arguments.strict && finding.severity == Severity::Warning))
      return true;
  return false;
}

} // namespace leafwright::app
