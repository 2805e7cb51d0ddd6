#include "app/documents/documents.h"
#include "app/documents/planned_project.h"
#include "app/system/diagnostics.h"
#include "app/system/environment.h"
#include "app/verbs/internal/remeasure_cost.h"
#include "app/verbs/internal/remeasure_report.h"
#include "app/verbs/internal/verb_table.h"
#include "guide/plain/plain.h"
#include "guide/sections.h"
#include "language/lists.h"
#include "measure/parse_length.h"
#include "output/write_file.h"
#include "read/edit/remeasure.h"
#include "read/read.h"
#include "records/records.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <ostream>
#include <set>
#include <variant>

namespace leafwright::app {

namespace fs = std::filesystem;

namespace {

struct Member {
  std::string value;
  PlannedProject planned;
  std::int64_t errors = 0, warnings = 0;
  std::set<std::string> codes; // of errors and warnings
  std::int64_t kit_sheets = 0, run_sheets = 0;
  Money cost;
  // Every piece fits a sheet; else sheets and cost leave some out and are told as "at least".
  bool whole() const { return !codes.contains("fit-sheet"); }
};

std::vector<std::string> listed_values(std::string_view text) {
  std::vector<std::string> values;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(','), text.size());
    std::string value(text.substr(0, end));
    text.remove_prefix(std::min(end + 1, text.size()));
    while (!value.empty() && value.front() == ' ') value.erase(0, 1);
    while (!value.empty() && value.back() == ' ') value.pop_back();
    if (!value.empty()) values.push_back(std::move(value));
  }
  return values;
}

// "cards.size" means that attribute of every card; "cards.size,a2.size" varies both together.
std::vector<std::string> overrides_for(const Project& project, const std::string& name,
                                       const std::string& value) {
  constexpr std::string_view every = "cards.";
  std::vector<std::string> overrides;
  for (const std::string& one : listed_values(name)) {
    if (!one.starts_with(every)) {
      overrides.push_back(one + "=" + value);
      continue;
    }
    for (const Card& card : project.cards)
      overrides.push_back(card.id + "." + one.substr(every.size()) + "=" + value);
  }
  return overrides;
}

Member member_of(const Arguments& arguments, const Project& project, const std::string& name,
                 const std::string& value, const cut::Effort& effort) {
  Member member;
  member.value = value;
  std::vector<std::string> overrides = arguments.set;
  for (std::string& one : overrides_for(project, name, value)) overrides.push_back(std::move(one));
  member.planned = plan_project(arguments.inputs.at(0), overrides);
  if (member.planned.reading.ok()) {
    plan_run(member.planned, effort);
    for (const supply::StockSheets& stock : member.planned.sheets.stocks)
      member.kit_sheets += stock.sheets;
    for (const supply::StockSheets& stock : member.planned.buying->sheets.stocks)
      member.run_sheets += stock.sheets;
    member.cost = member.planned.buying->total;
  }
  for (const Finding& finding : member.planned.findings) {
    if (finding.severity == Severity::Note) continue;
    ++(finding.severity == Severity::Error ? member.errors : member.warnings);
    member.codes.insert(finding.code);
  }
  return member;
}

std::string codes_text(const std::set<std::string>& codes) {
  return codes.empty() ? "–" : words::series({codes.begin(), codes.end()});
}

guide::Document table_of(const std::string& name, const std::vector<Member>& members) {
  using guide::Column;
  guide::Table table;
  table.caption = "One design at several sizes";
  table.columns = {{guide::plain(name), Column::Align::Left, 1.0, true},
                   {guide::plain("Errors"), Column::Align::Right, 0.5, false},
                   {guide::plain("Warnings"), Column::Align::Right, 0.5, false},
                   {guide::plain("Sheets a kit"), Column::Align::Right, 0.6, false},
                   {guide::plain("Sheets in all"), Column::Align::Right, 0.6, false},
                   {guide::plain("Supplies"), Column::Align::Right, 0.8, false},
                   {guide::plain("Findings"), Column::Align::Left, 2.4, false}};
  for (const Member& member : members) {
    const auto amount = [&](const std::string& words) {
      if (!member.planned.reading.ok()) return std::string("–");
      return member.whole() ? words : "at least " + words;
    };
    guide::Row row;
    for (const std::string& cell :
         {member.value, std::to_string(member.errors), std::to_string(member.warnings),
          amount(std::to_string(member.kit_sheets)), amount(std::to_string(member.run_sheets)),
          amount(money_text(member.cost)), codes_text(member.codes)})
      row.cells.push_back(guide::plain(cell));
    table.rows.push_back(std::move(row));
  }
  guide::Section section{"family", "Sizes", {}};
  guide::add(section, std::move(table));
  guide::Document document;
  document.sections.push_back(std::move(section));
  return document;
}

std::string json_of(const std::string& name, const std::vector<Member>& members) {
  records::Json json;
  json.open_object().key("schema").number(1).key("varies").text(name).key("sizes").open_array();
  for (const Member& member : members) {
    json.open_object().key("value").text(member.value);
    json.key("errors").number(member.errors).key("warnings").number(member.warnings);
    json.key("kit_sheets").number(member.kit_sheets).key("run_sheets").number(member.run_sheets);
    json.key("whole").truth(member.whole());
    json.key("cost_minor")
        .number(member.cost.minor)
        .key("currency")
        .text(member.cost.currency.code);
    json.key("findings").open_array();
    for (const Finding& finding : member.planned.findings) {
      json.open_object().key("code").text(finding.code).key("found").text(finding.found);
      json.key("mend").text(finding.fix).close_object();
    }
    json.close_array().close_object();
  }
  json.close_array().close_object();
  return json.take();
}

// Nothing when the mark is none, which is told.
std::optional<edit::RemeasureOptions> options_of(const Arguments& arguments, Unit from,
                                                 Environment& environment) {
  const RemeasureArguments& said = arguments.remeasure;
  edit::RemeasureOptions options;
  options.to = said.units.empty()     ? (from == Unit::Inch ? Unit::Millimetre : Unit::Inch)
               : said.units == "inch" ? Unit::Inch
                                      : Unit::Millimetre;
  if (!said.mark.empty()) {
    const Parsed<Length> mark = parse_length(said.mark, *options.to);
    // A part of an inch, or whole tenths of a millimetre: else it is no mark of that ruler.
    const auto on_ruler = [&](Length one) {
      if (one < micrometres(100) || one > inches(1)) return false;
      return *options.to == Unit::Inch ? nm_per_inch % one.nm == 0 : one.nm % 100'000 == 0;
    };
    if (!mark || !on_ruler(*mark)) {
      report(fmt::format("--mark {}: write a mark of the ruler, such as {}", said.mark,
                         *options.to == Unit::Inch ? "1/16 or 1/8" : "0.5 or 1"),
             environment);
      return std::nullopt;
    }
    options.mark = *mark;
  }
  options.bought = said.bought;
  options.usual_sheets = said.usual == "sheets" || said.usual == "all";
  options.usual_cards = said.usual == "cards" || said.usual == "all";
  options.paper = arguments.paper;
  return options;
}

// The file's bytes with the values of --set in them; an exit code when there are none.
std::variant<std::string, int> begun_with(const Arguments& arguments, Environment& environment) {
  const std::string& path = arguments.inputs.at(0);
  constexpr std::size_t most_bytes = 32'000'000;
  FileBytes read = disk_access().read(path, most_bytes);
  if (std::get_if<std::string>(&read) == nullptr) {
    const PlannedProject missing = plan_project(path, {});
    print_findings(missing.findings, missing.reading.sources, arguments, environment);
    return FoundErrors;
  }
  std::string bytes = std::get<std::string>(std::move(read));
  if (arguments.set.empty()) return bytes;
  const edit::Editing editing = edit::set_values(bytes, path, arguments.set);
  if (!editing.ok()) {
    print_findings(editing.findings, editing.sources, arguments, environment);
    return FoundErrors;
  }
  return edit::applied(bytes, editing.edits);
}

int write_edition(const std::string& bytes, const TwoSystems& both, const Arguments& arguments,
                  Environment& environment) {
  if (stops(both.after.findings, arguments) && !arguments.draft) {
    print_findings(both.after.findings, both.after.reading.sources, arguments, environment);
    report(fmt::format("{} was not written: the new edition has errors; --draft writes it all "
                       "the same",
                       arguments.out),
           environment);
    return FoundErrors;
  }
  std::error_code ignored;
  if (fs::exists(arguments.out, ignored)) {
    report(
        fmt::format("{} is there already and is left as it is; name another file", arguments.out),
        environment);
    return NotWritten;
  }
  if (const auto fault = file::write_file(arguments.out, bytes)) {
    report(*fault, environment);
    return NotWritten;
  }
  // Pictures and orders are looked for beside the file.
  const Reading there = read_project_file(arguments.out);
  if (!there.ok() && both.after.reading.ok())
    report(fmt::format("{} cannot be read where it lies: its pictures and orders stand beside {}",
                       arguments.out, arguments.inputs.at(0)),
           environment);
  if (!arguments.quiet) environment.error << fmt::format("{} is written\n", arguments.out);
  return Done;
}

} // namespace

int run_family(const Arguments& arguments, Environment& environment) {
  const std::string& vary = arguments.change.vary;
  const std::size_t sign = vary.find('=');
  const std::vector<std::string> values =
      sign == std::string::npos ? std::vector<std::string>()
                                : listed_values(std::string_view(vary).substr(sign + 1));
  if (values.empty()) {
    report("family: say what varies: --vary cards.size=A2,A6,C6", environment);
    return WrongUse;
  }
  const std::string name = vary.substr(0, sign);
  const PlannedProject as_is = plan_project(arguments.inputs.at(0), arguments.set);
  if (!as_is.reading.ok()) {
    print_findings(as_is.findings, as_is.reading.sources, arguments, environment);
    return FoundErrors;
  }
  std::vector<Member> members;
  ProgressLine line(arguments, environment);
  for (const std::string& value : values) {
    line.show(fmt::format("{} = {} ({} of {})", name, value, members.size() + 1, values.size()));
    members.push_back(member_of(arguments, as_is.reading.project, name, value, line.effort()));
  }
  line.clear();
  if (arguments.json()) {
    environment.out << json_of(name, members);
    return Done;
  }
  guide::PlainLook look;
  look.width = 110;
  environment.out << guide::plain_text(table_of(name, members), look);
  for (const Member& member : members) {
    if (member.errors == 0 || arguments.quiet) continue;
    environment.error << fmt::format("\n{} = {}\n", name, member.value) << std::flush;
    Findings errors;
    for (const Finding& finding : member.planned.findings)
      if (finding.severity == Severity::Error) errors.push_back(finding);
    print_findings(errors, member.planned.reading.sources, arguments, environment);
  }
  return Done;
}

int run_remeasure(const Arguments& arguments, Environment& environment) {
  const std::string& path = arguments.inputs.at(0);
  auto begun = begun_with(arguments, environment);
  if (const int* code = std::get_if<int>(&begun)) return *code;
  const std::string bytes = std::get<std::string>(std::move(begun));
  PlannedProject before = plan_project(read_project(bytes, path));
  if (!before.reading.ok()) {
    print_findings(before.findings, before.reading.sources, arguments, environment);
    return FoundErrors;
  }
  const auto options = options_of(arguments, before.reading.project.printing.unit, environment);
  if (!options) return WrongUse;
  const edit::Remeasuring made = edit::remeasured(bytes, path, *options);
  if (!made.ok()) {
    print_findings(made.findings, made.sources, arguments, environment);
    report("there is no new edition", environment);
    return FoundErrors;
  }
  const std::string fresh = edit::applied(bytes, made.edits);
  PlannedProject after = plan_project(read_project(fresh, path));
  ProgressLine line(arguments, environment);
  line.show(planning_words);
  plan_run(before, line.effort());
  if (after.reading.ok()) plan_run(after, line.effort());
  TwoSystems both = two_systems(before, after, made);
  both.dearer = dearer_purchases(both, bytes, path);
  line.clear();
  guide::PlainLook look;
  look.width = 110;
  environment.out << (arguments.json() ? remeasure_json(both)
                                       : guide::plain_text(remeasure_report(both), look));
  if (arguments.out != ".") return write_edition(fresh, both, arguments, environment);
  return stops(after.findings, arguments) ? FoundErrors : Done;
}

} // namespace leafwright::app
