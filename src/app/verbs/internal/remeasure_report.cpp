#include "app/verbs/internal/remeasure_report.h"

#include "guide/sections.h"
#include "language/english.h"
#include "language/lists.h"
#include "language/words.h"
#include "measure/print_length.h"
#include "read/read.h"
#include "records/records.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>
#include <utility>

namespace leafwright::app {

namespace {

using guide::Column;

// "+0.45 mm": decimals, so that what is less than a mark shows too; "exactly" for nothing.
std::string moved_by(Length by, Unit unit) {
  if (by.nm == 0) return "exactly";
  const bool inch = unit == Unit::Inch;
  const double value = inch ? in_inches(absolute(by)) : in_mm(absolute(by));
  return fmt::format("{}{:.{}f} {}", by.nm < 0 ? "−" : "+", value, inch ? 3 : 2,
                     inch ? "in" : "mm");
}

std::string moves(const edit::Chosen& chosen, Unit unit) {
  std::vector<std::string> shown;
  for (const edit::Chosen::Measure& one : chosen.measures) {
    shown.push_back(shown.size() == 4 ? "…" : moved_by(one.after - one.before, unit));
    if (shown.size() > 4) break;
  }
  return words::series(shown);
}

guide::Table table(const std::vector<std::pair<std::string, double>>& columns) {
  guide::Table made;
  bool first = true;
  for (const auto& [title, share] : columns) {
    made.columns.push_back({guide::plain(title), Column::Align::Left, share, first});
    first = false;
  }
  return made;
}
void row(guide::Table& to, const std::vector<std::string>& cells) {
  guide::Row made;
  for (const std::string& cell : cells) made.cells.push_back(guide::plain(cell));
  to.rows.push_back(std::move(made));
}

guide::Table pieces_table(const TwoSystems& both) {
  const Project& before = both.before.reading.project;
  const Project& after = both.after.reading.project;
  guide::Table made =
      table({{"Piece", 2.2}, {"Was", 1.6}, {"Is", 1.6}, {"Wider by", 1.0}, {"Higher by", 1.0}});
  for (std::size_t c = 0; c < after.cards.size() && c < before.cards.size(); ++c)
    for (const Piece& piece : after.cards[c].pieces) {
      const auto& all = before.cards[c].pieces;
      const auto old = std::find_if(all.begin(), all.end(),
                                    [&](const Piece& one) { return one.id == piece.id; });
      if (old == all.end() || old->size == piece.size) continue;
      row(made, {fmt::format("{}: {}", after.cards[c].title, piece.name),
                 size_text(old->size, before.printing), size_text(piece.size, after.printing),
                 moved_by(piece.size.width - old->size.width, both.made.unit),
                 moved_by(piece.size.height - old->size.height, both.made.unit)});
    }
  return made;
}

guide::Table written_table(const std::vector<edit::Chosen>& all, Unit unit, bool moved) {
  guide::Table made =
      moved
          ? table({{"Where", 2.2}, {"Was", 1.5}, {"Is", 1.5}, {"Moved by", 1.3}, {"Because", 1.4}})
          : table({{"Where", 2.2}, {"Was", 1.5}, {"Is", 1.5}});
  for (const edit::Chosen& one : all) {
    if (moved)
      row(made, {one.where, one.before, one.after, moves(one, unit), one.why});
    else
      row(made, {one.where, one.before, one.after});
  }
  return made;
}

std::int64_t kit_sheets(const PlannedProject& planned) {
  std::int64_t sheets = 0;
  for (const supply::StockSheets& stock : planned.sheets.stocks) sheets += stock.sheets;
  return sheets;
}
std::int64_t run_sheets(const PlannedProject& planned) {
  std::int64_t sheets = 0;
  for (const supply::StockSheets& stock : planned.buying->sheets.stocks) sheets += stock.sheets;
  return sheets;
}

guide::Table totals_table(const TwoSystems& both) {
  guide::Table made = table({{"", 2.0}, {"Was", 1.0}, {"Is", 1.0}});
  row(made, {"sheets for a kit", std::to_string(kit_sheets(both.before)),
             std::to_string(kit_sheets(both.after))});
  const bool runs = both.before.buying && both.after.buying &&
                    run_sheets(both.before) + run_sheets(both.after) > 0;
  if (runs) {
    row(made, {"sheets for the batch", std::to_string(run_sheets(both.before)),
               std::to_string(run_sheets(both.after))});
    row(made, {"supplies for the batch", money_text(both.before.buying->total),
               money_text(both.after.buying->total)});
  }
  return made;
}

void titled(guide::Section& section, std::string title, guide::Table made) {
  if (made.rows.empty()) return;
  guide::add(section, guide::heading(2, {}, std::move(title)));
  guide::add(section, std::move(made));
}

void list(guide::Section& section, std::string title, const std::vector<std::string>& lines) {
  if (lines.empty()) return;
  guide::add(section, guide::heading(2, {}, std::move(title)));
  guide::List made;
  for (const std::string& line : lines) made.items.push_back(guide::plain(line));
  guide::add(section, std::move(made));
}

std::vector<std::string> lines_of(const std::vector<const Finding*>& findings) {
  std::vector<std::string> lines;
  lines.reserve(findings.size());
  for (const Finding* one : findings)
    lines.push_back(fmt::format("line {}, {}: {}; {}", one->place.line,
                                severity_word(one->severity), one->found, one->fix));
  return lines;
}

std::vector<std::string> lines_of(const Project& project,
                                  const std::vector<DearerPurchase>& dearer) {
  std::vector<std::string> lines;
  for (const DearerPurchase& one : dearer) {
    const std::string_view noun =
        one.item.kind == ItemKind::Ribbon ? words::terms(project.language).spool : "pack";
    std::string line = fmt::format("{}: {} instead of {}", item_name(project, one.item),
                                   words::figured(one.after, noun), one.before);
    if (one.more.minor > 0) line += fmt::format(", {} more", money_text(one.more));
    line += "." + (one.why.empty() ? "" : " " + one.why);
    line += one.instead.empty() ? std::string(" Making one measure a mark shorter won't avoid it.")
                                : fmt::format(" Write {} in place of {} to avoid it: {}.",
                                              one.instead, one.now, words::listed(one.where));
    lines.push_back(std::move(line));
  }
  return lines;
}

} // namespace

// Nothing is inserted between lines, so a finding stands where it stood.
TwoSystems two_systems(const PlannedProject& before, const PlannedProject& after,
                       const edit::Remeasuring& made) {
  TwoSystems both{before, after, made, {}, {}, {}};
  const auto only_in = [](const Findings& all, const Findings& other) {
    using Key = std::tuple<std::string, std::int32_t, Severity>;
    std::map<Key, int> known;
    for (const Finding& one : other) ++known[{one.code, one.place.line, one.severity}];
    std::vector<const Finding*> found;
    for (const Finding& one : all)
      if (one.severity != Severity::Note && --known[{one.code, one.place.line, one.severity}] < 0)
        found.push_back(&one);
    return found;
  };
  both.fresh = only_in(after.findings, before.findings);
  both.gone = only_in(before.findings, after.findings);
  return both;
}

guide::Document remeasure_report(const TwoSystems& both) {
  const edit::Remeasuring& made = both.made;
  guide::Section section{"remeasure", "In the other system", {}};
  const Printing to_mark{made.unit, made.mark, made.mark};
  guide::add(
      section,
      guide::lead(guide::plain(fmt::format(
          "{} in {}. Every measure of your own is on a mark of {}. {} of {} values changed.",
          both.after.reading.project.title,
          made.unit == Unit::Inch ? std::string_view("inches")
                                  : words::terms(both.after.reading.project.language).millimeters,
          length_text(made.mark, to_mark), made.chosen.size(),
          made.chosen.size() + made.kept.size()))));
  titled(section, "Pieces as cut", pieces_table(both));
  titled(section, "Measures as written", written_table(made.chosen, made.unit, true));
  titled(section, "As bought: the same size, with its unit",
         written_table(made.kept, made.unit, false));
  titled(section, "What it takes", totals_table(both));
  list(section, "Why it costs more", lines_of(both.after.reading.project, both.dearer));
  list(section, "New findings", lines_of(both.fresh));
  list(section, "Findings that are gone", lines_of(both.gone));
  std::vector<std::string> remarks;
  remarks.reserve(made.remarks.size());
  for (const edit::Remark& one : made.remarks)
    remarks.push_back(fmt::format("line {}: {}", one.place.line, one.words));
  list(section, "Look at these yourself", remarks);
  guide::Document document;
  document.sections.push_back(std::move(section));
  return document;
}

namespace {

void write_dearer(records::Json& json, const TwoSystems& both) {
  json.key("dearer").open_array();
  for (const DearerPurchase& one : both.dearer) {
    json.open_object().key("item").text(item_id(both.after.reading.project, one.item));
    json.key("packs").open_array().number(one.before).number(one.after).close_array();
    json.key("more_minor").number(one.more.minor).key("why").text(one.why);
    json.key("instead").text(one.instead).key("where").open_array();
    for (const std::string& where : one.where) json.text(where);
    json.close_array().close_object();
  }
  json.close_array();
}

} // namespace

std::string remeasure_json(const TwoSystems& both) {
  const edit::Remeasuring& made = both.made;
  records::Json json;
  json.open_object().key("schema").number(1);
  json.key("units").text(made.unit == Unit::Inch ? "inch" : "mm");
  json.key("mark").decimal(records::millimetre_text(made.mark));
  const auto values = [&](std::string_view name, const std::vector<edit::Chosen>& all) {
    json.key(name).open_array();
    for (const edit::Chosen& one : all) {
      json.open_object().key("where").text(one.where);
      json.key("before").text(one.before).key("after").text(one.after);
      json.key("measures").open_array();
      for (const edit::Chosen::Measure& measure : one.measures)
        json.open_array()
            .decimal(records::millimetre_text(measure.before))
            .decimal(records::millimetre_text(measure.after))
            .close_array();
      json.close_array().key("why").text(one.why).close_object();
    }
    json.close_array();
  };
  values("chosen", made.chosen);
  values("bought", made.kept);
  const auto findings = [&](std::string_view name, const std::vector<const Finding*>& all) {
    json.key(name).open_array();
    for (const Finding* one : all) {
      json.open_object().key("code").text(one->code).key("line").number(one->place.line);
      json.key("severity").text(severity_word(one->severity)).key("found").text(one->found);
      json.key("mend").text(one->fix).close_object();
    }
    json.close_array();
  };
  write_dearer(json, both);
  findings("new_findings", both.fresh);
  findings("settled_findings", both.gone);
  json.key("remarks").open_array();
  for (const edit::Remark& one : made.remarks)
    json.open_object()
        .key("line")
        .number(one.place.line)
        .key("words")
        .text(one.words)
        .close_object();
  json.close_array();
  json.key("kit_sheets").open_array();
  json.number(kit_sheets(both.before)).number(kit_sheets(both.after)).close_array();
  if (both.before.buying && both.after.buying) {
    json.key("run_sheets").open_array();
    json.number(run_sheets(both.before)).number(run_sheets(both.after)).close_array();
    json.key("cost_minor").open_array();
    json.number(both.before.buying->total.minor).number(both.after.buying->total.minor);
    json.close_array();
  }
  json.close_object();
  return json.take();
}

} // namespace leafwright::app
