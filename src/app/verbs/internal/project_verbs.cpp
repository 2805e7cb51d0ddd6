#include "app/documents/planned_project.h"
#include "app/system/diagnostics.h"
#include "app/system/environment.h"
#include "app/system/operating_system.h"
#include "app/system/progress.h"
#include "app/verbs/internal/verb_table.h"
#include "language/agreement.h"
#include "measure/letters.h"
#include "output/write_file.h"
#include "plan/fit/check.h"
#include "plan/orders/order_rules.h"
#include "plan/tier/check_tiers.h"
#include "read/read.h"
#include "text/xml_text.h"

#include <fmt/format.h>

#include <filesystem>
#include <ostream>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace leafwright::app {

namespace fs = std::filesystem;

namespace {

std::string_view word(Severity severity) {
  switch (severity) {
  case Severity::Error: return "error";
  case Severity::Warning: return "warning";
  case Severity::Note: return "note";
  }
  return {};
}

// "Orchard Gate" -> "orchard-gate": letters and digits of ASCII, the rest becomes one hyphen.
std::string id_of(std::string_view title) {
  std::string id;
  for (const char c : title) {
    const bool upper = c >= 'A' && c <= 'Z';
    if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || upper)
      id += small_letter(c);
    else if (!id.empty() && id.back() != '-')
      id += '-';
  }
  while (!id.empty() && id.back() == '-') id.pop_back();
  if (id.empty() || (id.front() >= '0' && id.front() <= '9')) id.insert(0, "set-");
  while (!id.empty() && id.back() == '-') id.pop_back();
  return id;
}

void replace_all(std::string& text, std::string_view from, std::string_view to) {
  for (std::size_t at = text.find(from); at != std::string::npos;
       at = text.find(from, at + to.size()))
    text.replace(at, from.size(), to);
}

// What its maker accepted is listed with her reason when `all` is asked for. An acceptance of
// nothing is told either way: the finding is gone, or its code is misspelt.
Findings about_accepted(const PlannedProject& planned, bool all) {
  Project bare = planned.reading.project;
  const std::vector<Acceptance> accepted = std::exchange(bare.accepted, {});
  if (accepted.empty()) return {};
  Findings found = fit::check(bare, &planned.sheets);
  append(found, tiers::check(bare, &planned.sheets));
  Findings told;
  for (const Acceptance& one : accepted) {
    bool used = false;
    for (const Finding& finding : found) {
      if (!accepts(one, finding)) continue;
      used = true;
      if (all)
        told.push_back(
            {Severity::Note,
             "accepted",
             finding.place,
             finding.found,
             "nothing to mend: " + one.why,
             fmt::format("take away <accept finding=\"{}\"> to hear of it again", one.finding),
             {}});
    }
    if (!used)
      told.push_back(
          {Severity::Note,
           "accept-idle",
           one.place,
           fmt::format("{} is accepted here, and nothing of that code is found", one.finding),
           "a finding to accept; errors are never accepted",
           "take the <accept> away, or correct its code",
           {}});
  }
  return told;
}

} // namespace

int run_check(const Arguments& arguments, Environment& environment) {
  if (arguments.list_rules) {
    for (const std::span<const fit::Rule> rules : {fit::rules(), tiers::rules(), orders::rules()})
      for (const fit::Rule& rule : rules)
        environment.out << fmt::format("{:24} {:8} {}\n", rule.id, word(rule.severity),
                                       rule.meaning);
    return Done;
  }
  if (arguments.inputs.empty()) {
    report("check: the project file is missing: leafwright check PROJECT.xml", environment);
    return WrongUse;
  }
  ProgressLine line(arguments, environment);
  line.show(fmt::format("Reading {}", arguments.inputs.at(0)));
  PlannedProject planned = plan_project(arguments.inputs.at(0), arguments.set);
  if (planned.reading.ok()) {
    append(planned.findings, tiers::check(planned.reading.project, &planned.sheets));
    append(planned.findings, about_accepted(planned, arguments.with_inferred));
    take_orders(planned);
    append(planned.findings, planned.order_findings);
    if (arguments.with_inferred) append(planned.findings, fit::inferred(planned.reading.project));
    line.show(planning_words);
    append(planned.findings, check_dates(planned, line.effort()));
    if (planned.buying)
      append(planned.findings, fit::check_batch(planned.reading.project, planned.buying->sheets));
  }
  line.clear();
  print_findings(planned.findings, planned.reading.sources, arguments, environment);
  if (stops(planned.findings, arguments)) return FoundErrors;
  const std::int64_t cards = std::ssize(planned.reading.project.cards);
  if (!arguments.json() && !arguments.quiet)
    environment.out << fmt::format("{}: {} {}, nothing that stops the work\n",
                                   arguments.inputs.at(0), cards, words::noun_for(cards, "card"));
  return Done;
}

int run_new(const Arguments& arguments, Environment& environment) {
  const std::string& title = arguments.inputs.at(0);
  const auto data = find_data_folder(environment.data);
  if (!data) {
    report("the folder with fonts/ and templates/ was not found; set LEAFWRIGHT_DATA to it",
           environment);
    return NotWritten;
  }
  FileBytes read = disk_access().read(*data + "/templates/new-project.xml", 1'000'000);
  if (const auto* why = std::get_if<FileFault>(&read)) {
    report(fmt::format("{}/templates/new-project.xml: {}", *data, why->words), environment);
    return NotWritten;
  }
  std::string text = std::get<std::string>(std::move(read));
  const std::string id = id_of(title);
  replace_all(text, "@ID@", id);
  replace_all(text, "@TITLE@", text::xml_text(title));

  std::error_code failed;
  const fs::path folder = fs::path(arguments.out) / id;
  const fs::path target = folder / "project.xml";
  if (fs::exists(target, failed)) {
    report(fmt::format("{} is there already and was left alone; choose another name or folder",
                       target.string()),
           environment);
    return NotWritten;
  }
  fs::create_directories(folder, failed);
  if (failed) {
    report(fmt::format("{}: {}", folder.string(), failed.message()), environment);
    return NotWritten;
  }
  if (const auto fault = file::write_file(target.string(), text)) {
    report(*fault, environment);
    return NotWritten;
  }
  environment.out << fmt::format("{}\nNext: leafwright tutorial {} -o {}\n", target.string(),
                                 target.string(), (folder / "out").string());
  return Done;
}

} // namespace leafwright::app
