#include "plan/fit/check.h"
#include "app/dates.h"
#include "app/exit_codes.h"
#include "app/findings.h"
#include "app/orders.h"
#include "app/prepare.h"
#include "app/progress.h"
#include "app/talk.h"
#include "app/verbs.h"
#include "plan/orders/order_rules.h"
#include "plan/tier/check.h"

#include <fmt/format.h>

#include <ostream>
#include <span>
#include <string_view>

namespace leafwright::app {

namespace {

std::string_view word(Severity severity) {
  switch (severity) {
  case Severity::Error: return "error";
  case Severity::Warning: return "warning";
  case Severity::Note: return "note";
  }
  return {};
}

} // namespace

int check(const Arguments& arguments, Surroundings& surroundings) {
  if (arguments.list_rules) {
    for (const std::span<const fit::Rule> rules : {fit::rules(), tiers::rules(), orders::rules()})
      for (const fit::Rule& rule : rules)
        surroundings.out << fmt::format("{:24} {:8} {}\n", rule.id, word(rule.severity),
                                        rule.meaning);
    return Done;
  }
  Prepared prepared = prepare(arguments.inputs.at(0), arguments.set);
  if (prepared.reading.ok()) {
    append(prepared.findings, tiers::check(prepared.reading.project, &prepared.sheets));
    take_orders(prepared);
    append(prepared.findings, prepared.order_findings);
    ProgressLine line(arguments, surroundings);
    append(prepared.findings, check_dates(prepared, line.effort()));
  }
  print_findings(prepared.findings, prepared.reading.sources, arguments, surroundings);
  if (stops(prepared.findings, arguments)) return FoundErrors;
  const std::size_t cards = prepared.reading.project.cards.size();
  if (!arguments.json)
    surroundings.out << fmt::format("{}: {} {}, nothing that stops the work\n",
                                    arguments.inputs.at(0), cards, cards == 1 ? "card" : "cards");
  return Done;
}

} // namespace leafwright::app
