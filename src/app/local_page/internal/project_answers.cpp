#include "app/documents/documents.h"
#include "app/local_page/internal/answers.h"
#include "guide/change/report.h"
#include "language/english.h"
#include "language/words.h"
#include "measure/index.h"
#include "measure/print_length.h"
#include "model/item.h"
#include "plan/change/compare.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdint>
#include <map>
#include <set>

namespace leafwright::local_page {

namespace {

void write_finding(Json& json, const Shown& shown, const Finding& one) {
  static constexpr std::array severities{"remark", "warning", "error"};
  json.open_object();
  json.key("severity").text(severities.at(as_index(static_cast<int>(one.severity))));
  json.key("rule").text(one.code).key("found").text(plain_blanks(one.found));
  json.key("expected").text(plain_blanks(one.expected)).key("fix").text(plain_blanks(one.fix));
  if (const auto element = shown.element_at(one.place)) {
    json.key("key").text(key_words(shown.text.keys.at(*element)));
    for (int up = static_cast<int>(*element); up >= 0; up = shown.tree.nodes[as_index(up)].parent) {
      const edit::ElementSpan& span = *shown.tree.nodes[as_index(up)].span;
      const edit::AttributeSpan* id = span.find("id");
      if (span.name == "card" && id != nullptr) json.key("card").text(shown.value_of(*id));
    }
  }
  json.key("line").number(one.place.line).key("column").number(one.place.column);
  json.key("mend").truth(one.mend.has_value()).close_object();
}

} // namespace

void write_findings(Json& json, const Shown& shown, const Findings& more) {
  json.open_array();
  for (const Findings* some : {&shown.findings, &more})
    for (const Finding& one : *some) write_finding(json, shown, one);
  json.close_array();
}

void write_written(Json& json, const std::vector<edit::Written>& written) {
  json.open_array();
  for (const edit::Written& one : written) {
    json.open_object().key("where").text(one.where).key("before").text(one.before);
    json.key("after").text(one.after).close_object();
  }
  json.close_array();
}

std::vector<FactRow> quick_facts(const Shown& shown) {
  std::vector<FactRow> facts;
  if (!shown.readable()) return facts;
  const Project& project = shown.project();
  std::int64_t settings = 0;
  for (const supply::StockSheets& stock : shown.planned.sheets.stocks) {
    const Stock* paper = find_at(project.stocks, stock.stock);
    if (paper == nullptr) continue;
    facts.push_back({"sheets-" + paper->id, paper->name + " for a kit",
                     words::figured(stock.sheets, "sheet"), static_cast<double>(stock.sheets), 1});
    for (const supply::SheetLayout& layout : stock.layouts) settings += layout.work.settings;
  }
  facts.push_back({"settings", "Trimmer settings for a kit", fmt::format("{}", settings),
                   static_cast<double>(settings), 1});
  int minutes = 0;
  for (const Card& card : project.cards) minutes += card.minutes;
  if (minutes > 0)
    facts.push_back({"minutes", "To make one of each card",
                     words::duration_text(std::int64_t{60} * minutes), static_cast<double>(minutes),
                     1});
  for (FactRow& row : facts) row.value = plain_blanks(row.value);
  return facts;
}

void write_facts(Json& json, const std::vector<FactRow>& facts) {
  json.open_array();
  for (const FactRow& row : facts)
    json.open_object()
        .key("id")
        .text(row.id)
        .key("label")
        .text(row.label)
        .key("value")
        .text(row.value)
        .close_object();
  json.close_array();
}

namespace {

void write_row(Json& json, const std::string& label, const std::string& before,
               const std::string& after, double more, int harm) {
  json.open_object().key("label").text(label).key("before").text(before).key("after").text(after);
  if (harm != 0 && more != 0) json.key("harm").text(more * harm > 0 ? "worse" : "better");
  json.close_object();
}

void write_fact_rows(Json& json, const Shown& before, const Shown& after) {
  std::map<std::string, FactRow> old;
  for (FactRow& row : quick_facts(before)) old.emplace(row.id, std::move(row));
  for (const FactRow& row : quick_facts(after)) {
    const auto known = old.find(row.id);
    if (known == old.end())
      write_row(json, row.label, "–", row.value, row.amount, row.harm);
    else if (known->second.value != row.value)
      write_row(json, row.label, known->second.value, row.value, row.amount - known->second.amount,
                row.harm);
    if (known != old.end()) old.erase(known);
  }
  for (const auto& [id, row] : old)
    write_row(json, row.label, row.value, "–", -row.amount, row.harm);
}

// Findings that come and go.
void write_finding_rows(Json& json, const Shown& before, const Shown& after) {
  const auto words = [](const Findings& findings) {
    std::multiset<std::string> all;
    for (const Finding& one : findings)
      if (one.severity != Severity::Note) all.insert(plain_blanks(one.found));
    return all;
  };
  const std::multiset<std::string> old = words(before.findings), now = words(after.findings);
  for (const std::string& one : now)
    if (!old.contains(one)) write_row(json, "To look at", "–", one, 1, 1);
  for (const std::string& one : old)
    if (!now.contains(one)) write_row(json, "To look at", one, "–", -1, 1);
}

} // namespace

void write_follows(Json& json, const Shown& before, const Shown& after) {
  constexpr std::size_t most = 24; // a page shows no more beside a field
  json.open_array();
  if (before.readable() && after.readable()) {
    write_fact_rows(json, before, after);
    const Printing& how = after.project().printing;
    std::size_t rows = 0;
    for (const change::ThingChange& thing : change::differences(
             change::facts_of(before.project()), change::facts_of(after.project()), nullptr))
      for (const change::FactChange& fact : thing.facts) {
        if (++rows > most) break;
        write_row(json, thing.now().name + ": " + fact.name,
                  plain_blanks(guide::fact_words(fact.before, how)),
                  plain_blanks(guide::fact_words(fact.after, how)), 0, 0);
      }
  }
  write_finding_rows(json, before, after);
  json.close_array();
}

namespace {

void write_sheets(Json& json, const Shown& shown) {
  json.open_array();
  const supply::CuttingPlan& plan = shown.planned.sheets;
  for (const supply::StockSheets& stock : plan.stocks) {
    const Stock* paper = find_at(shown.project().stocks, stock.stock);
    for (const supply::SheetLayout& layout : stock.layouts) {
      const std::string size = plain_blanks(size_text(layout.sheet, shown.project().printing));
      json.open_object().key("paper").text(paper ? paper->name : "");
      json.key("label").text(
          fmt::format("{}, {}{}", paper ? paper->name : "", size,
                      layout.times > 1 ? fmt::format(" ×{}", layout.times) : ""));
      json.key("pieces").open_array();
      std::set<std::string> keys;
      for (const supply::Placed& placed : layout.pieces)
        for (const int line : at(plan.pieces, placed.piece).lines)
          if (const supply::PieceRef ref = at(plan.lines, line).piece; ref.card >= 0)
            keys.insert(shown.key_at(supply::piece_of(shown.project(), ref).place));
      for (const std::string& key : keys) json.text(key);
      json.close_array().close_object();
    }
  }
  json.close_array();
}

void write_documents(Json& json) {
  json.open_array();
  for (const app::DocumentKind& kind : app::document_kinds()) {
    std::string title(kind.verb);
    std::ranges::replace(title, '-', ' ');
    json.open_object().key("name").text(kind.verb).key("title").text(words::sentence_case(title));
    json.key("about").text(kind.purpose).close_object();
  }
  json.close_array();
}

void write_undo(Json& json, std::string_view name, const std::vector<UndoStep>& steps) {
  json.key(name);
  if (steps.empty())
    json.nothing();
  else
    json.text(steps.back().words);
}

} // namespace

void write_project(Json& json, const ProjectAnswer& answer) {
  const Shown& shown = answer.shown;
  const Shown& readable = answer.last_readable;
  const Project& project = shown.project();
  json.open_object().key("rev").text(shown.revision).key("title").text(project.title);
  json.key("maker").text(project.maker.name).key("language").text(project.language);
  json.key("unit").text(project.printing.unit == Unit::Inch ? "inch" : "mm").key("mark");
  write_mm(json, project.printing.step);
  json.key("file").text(answer.file).key("unsaved").truth(answer.session.unsaved());
  json.key("kept").truth(answer.kept);
  write_undo(json, "undo", answer.session.undo_steps());
  write_undo(json, "redo", answer.session.redo_steps());
  // Pictures and things of the last state that could be read, while this one cannot.
  json.key("stale").truth(&shown != &readable);
  json.key("elements");
  write_elements(json, shown);
  if (answer.with_tags) {
    json.key("tags");
    write_tags(json);
  }
  json.key("cards");
  write_cards(json, readable, answer.steps);
  json.key("findings");
  write_findings(json, shown, answer.slow_findings);
  std::vector<FactRow> facts = quick_facts(readable);
  facts.insert(facts.end(), answer.slow_facts.begin(), answer.slow_facts.end());
  json.key("facts");
  write_facts(json, facts);
  json.key("sheets");
  write_sheets(json, readable);
  json.key("documents");
  write_documents(json);
  json.key("orders").truth(!project.run.roster.empty() || !project.run.orders.empty());
  json.key("compute").open_object().key("ms");
  write_number(json, shown.milliseconds);
  json.close_object().close_object();
}

} // namespace leafwright::local_page
