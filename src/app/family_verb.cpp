#include "app/exit_codes.h"
#include "app/making.h"
#include "app/prepare.h"
#include "app/talk.h"
#include "app/verbs.h"
#include "guide/plain/plain.h"
#include "guide/sections.h"
#include "records/records.h"

#include <fmt/format.h>

#include <algorithm>
#include <ostream>
#include <set>

namespace leafwright::app {

namespace {

struct Member {
  std::string value;
  Prepared prepared;
  std::int64_t errors = 0, warnings = 0;
  std::set<std::string> codes; // of errors and warnings
  std::int64_t kit_sheets = 0, run_sheets = 0;
  Money cost;
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
                 const std::string& value) {
  Member member;
  member.value = value;
  std::vector<std::string> overrides = arguments.set;
  for (std::string& one : overrides_for(project, name, value)) overrides.push_back(std::move(one));
  member.prepared = prepare(arguments.inputs.at(0), overrides);
  if (member.prepared.reading.ok()) {
    plan_run(member.prepared, effort_of(arguments));
    for (const supply::StockSheets& stock : member.prepared.sheets.stocks)
      member.kit_sheets += stock.sheets;
    for (const supply::RunStock& stock : member.prepared.buying->sheets.stocks)
      member.run_sheets += stock.all_sheets;
    member.cost = member.prepared.buying->total;
  }
  for (const Finding& finding : member.prepared.findings) {
    if (finding.severity == Severity::Note) continue;
    ++(finding.severity == Severity::Error ? member.errors : member.warnings);
    member.codes.insert(finding.code);
  }
  return member;
}

std::string codes_text(const std::set<std::string>& codes) {
  std::string text;
  for (const std::string& code : codes) text += (text.empty() ? "" : ", ") + code;
  return text.empty() ? "–" : text;
}

guide::Document table_of(const std::string& name, const std::vector<Member>& members) {
  using guide::Column;
  guide::Table table;
  table.caption = "One design at several sizes";
  table.columns = {{guide::plain(name), Column::Align::Left, 1.0, true},
                   {guide::plain("Errors"), Column::Align::Right, 0.5, false},
                   {guide::plain("Warnings"), Column::Align::Right, 0.5, false},
                   {guide::plain("Sheets of a kit"), Column::Align::Right, 0.6, false},
                   {guide::plain("Of the run"), Column::Align::Right, 0.6, false},
                   {guide::plain("Run costs"), Column::Align::Right, 0.8, false},
                   {guide::plain("Rules that speak"), Column::Align::Left, 2.4, false}};
  for (const Member& member : members) {
    const bool read = member.prepared.reading.ok();
    guide::Row row;
    for (const std::string& cell :
         {member.value, std::to_string(member.errors), std::to_string(member.warnings),
          read ? std::to_string(member.kit_sheets) : std::string("–"),
          read ? std::to_string(member.run_sheets) : std::string("–"),
          read ? money_text(member.cost) : std::string("–"), codes_text(member.codes)})
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
    json.key("cost_minor")
        .number(member.cost.minor)
        .key("currency")
        .text(member.cost.currency.code);
    json.key("findings").open_array();
    for (const Finding& finding : member.prepared.findings) {
      json.open_object().key("code").text(finding.code).key("found").text(finding.found);
      json.key("mend").text(finding.fix).close_object();
    }
    json.close_array().close_object();
  }
  json.close_array().close_object();
  return json.take();
}

} // namespace

int show_family(const Arguments& arguments, Surroundings& surroundings) {
  const std::string& vary = arguments.change.vary;
  const std::size_t sign = vary.find('=');
  const std::vector<std::string> values =
      sign == std::string::npos ? std::vector<std::string>()
                                : listed_values(std::string_view(vary).substr(sign + 1));
  if (values.empty()) {
    complain("family: say what varies: --vary cards.size=A2,A6,C6", surroundings);
    return WrongUse;
  }
  const std::string name = vary.substr(0, sign);
  const Prepared as_is = prepare(arguments.inputs.at(0), arguments.set);
  if (!as_is.reading.ok()) {
    print_findings(as_is.findings, as_is.reading.sources, arguments, surroundings);
    return FoundErrors;
  }
  std::vector<Member> members;
  for (const std::string& value : values)
    members.push_back(member_of(arguments, as_is.reading.project, name, value));
  if (arguments.json) {
    surroundings.out << json_of(name, members);
    return Done;
  }
  guide::PlainLook look;
  look.width = 110;
  surroundings.out << guide::plain_text(table_of(name, members), look);
  for (const Member& member : members) {
    if (member.errors == 0 || arguments.quiet) continue;
    surroundings.error << fmt::format("\n{} = {}\n", name, member.value) << std::flush;
    Findings errors;
    for (const Finding& finding : member.prepared.findings)
      if (finding.severity == Severity::Error) errors.push_back(finding);
    print_findings(errors, member.prepared.reading.sources, arguments, surroundings);
  }
  return Done;
}

} // namespace leafwright::app
