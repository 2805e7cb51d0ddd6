#include "guide/change/report.h"

#include "guide/change/internal/report_parts.h"
#include "guide/prose.h"
#include "guide/sections.h"
#include "guide/shop/shop_words.h"
#include "language/agreement.h"
#include "language/words.h"
#include "measure/index.h"
#include "measure/letters.h"
#include "measure/print_length.h"

#include <algorithm>
#include <utility>

namespace leafwright::guide {
namespace {

using change::Kind;
using change::ThingChange;

Row row_of(const std::vector<std::string>& cells) {
  Row row;
  for (const std::string& cell : cells) row.cells.push_back(plain(cell));
  return row;
}

Table was_is(const std::string& caption, const std::string& head) {
  Table table;
  table.caption = caption;
  table.columns = {{plain(head), Column::Align::Left, 1.6, true},
                   {plain("What"), Column::Align::Left, 1.0, false},
                   {plain("Was"), Column::Align::Left, 1.6, false},
                   {plain("Is"), Column::Align::Left, 1.6, false}};
  return table;
}

// A thing that comes or goes is told in one row by what it is.
std::string summary_of(const change::Thing& thing, const Printing& how) {
  std::vector<std::string> parts;
  for (const char* fact : {"size", "paper", "cut length", "of", "with", "price"})
    if (const change::FactValue* worth = thing.find(fact)) parts.push_back(fact_words(*worth, how));
  return parts.empty() ? "–" : words::listed(parts);
}

void add_thing(Table& table, const ThingChange& change, const Printing& how) {
  const std::string name = words::sentence_case(thing_words(change.now()));
  if (change.how == ThingChange::How::Added) {
    table.rows.push_back(row_of({name, "new", "–", summary_of(change.after, how)}));
    return;
  }
  if (change.how == ThingChange::How::Gone) {
    table.rows.push_back(row_of({name, "gone", summary_of(change.before, how), "–"}));
    return;
  }
  for (const change::FactChange& fact : change.facts)
    table.rows.push_back(
        row_of({name, fact.name, fact_words(fact.before, how), fact_words(fact.after, how)}));
}

bool of_a_card(Kind kind) {
  return kind == Kind::Card || kind == Kind::Piece || kind == Kind::Ribbon ||
         kind == Kind::Embellishment || kind == Kind::Step;
}

// nullptr where the thing belongs to no card.
const Card* card_of(const ChangeStory& story, const ThingChange& change) {
  if (!of_a_card(change.now().kind)) return nullptr;
  const bool gone = change.how == ThingChange::How::Gone;
  const Project& project = gone ? story.before : story.after;
  return find_at(project.cards, change.now().card);
}

Table card_changes(const ChangeStory& story) {
  Table table = was_is("What changes on the cards", "Piece");
  std::vector<std::string> cards; // in the order in which they first come
  for (const ThingChange& change : story.comparison.things)
    if (const Card* card = card_of(story, change))
      if (std::find(cards.begin(), cards.end(), card->id) == cards.end()) cards.push_back(card->id);
  for (const std::string& id : cards) {
    bool first = true;
    for (const ThingChange& change : story.comparison.things) {
      const Card* card = card_of(story, change);
      if (!card || card->id != id) continue;
      if (std::exchange(first, false))
        table.rows.push_back({Row::Kind::Group, {plain(card->title)}, false});
      add_thing(table, change, story.after.printing);
    }
  }
  return table;
}

Table other_changes(const ChangeStory& story, std::initializer_list<Kind> kinds,
                    const std::string& caption, const std::string& head) {
  Table table = was_is(caption, head);
  for (const ThingChange& change : story.comparison.things)
    if (std::find(kinds.begin(), kinds.end(), change.now().kind) != kinds.end())
      add_thing(table, change, story.after.printing);
  return table;
}

std::string page_of(const std::map<std::string, std::string>& pages, const std::string& anchor) {
  const auto found = pages.find(anchor);
  return found == pages.end() ? "–" : found->second;
}

std::string step_what(const StepChange& step) {
  if (step.how == StepChange::How::Added) return "new";
  if (step.how == StepChange::How::Gone) return "gone";
  return step.words ? (step.drawing ? "words and drawing" : "words") : "drawing";
}

Table step_table(const ChangeStory& story) {
  Table table;
  table.caption = "Steps that change";
  table.columns = {{plain("Step"), Column::Align::Right, 0.3, false},
                   {plain("Title"), Column::Align::Left, 2.4, true},
                   {plain("What"), Column::Align::Left, 1.0, false},
                   {plain("Page was"), Column::Align::Right, 0.5, false},
                   {plain("Page is"), Column::Align::Right, 0.5, false}};
  std::string section;
  for (const StepChange& step : story.steps) {
    if (step.section != section) {
      section = step.section;
      table.rows.push_back({Row::Kind::Group, {plain(step.card)}, false});
    }
    const bool gone = step.how == StepChange::How::Gone;
    table.rows.push_back(
        row_of({gone ? step.number_before : step.number, gone ? step.title_before : step.title,
                step_what(step), page_of(story.pages_before, step.anchor_before),
                page_of(story.pages_after, step.anchor)}));
  }
  return table;
}

std::string unit_count(supply::BuyingLine::CountedIn unit, std::int64_t n) {
  using CountedIn = supply::BuyingLine::CountedIn;
  switch (unit) {
  case CountedIn::Sheets: return words::figured(n, "sheet");
  case CountedIn::Spools: return words::figured(n, "spool");
  case CountedIn::Rolls: return words::figured(n, "roll");
  case CountedIn::Things:
  case CountedIn::Pieces: break;
  }
  return std::to_string(n);
}

std::string needed_words(const change::BuyingChange& one, bool before, const Printing& how) {
  const Length length = before ? one.length_before : one.length_after;
  const Mass mass = before ? one.mass_before : one.mass_after;
  std::string text = unit_count(one.unit, before ? one.needed_before : one.needed_after);
  if (length.nm > 0) text += ", " + unrounded(length, how);
  if (mass.mg > 0) text += ", " + mass_text(mass);
  return text;
}

Table buying_table(const ChangeStory& story) {
  Table table;
  table.caption = "Supplies of the whole batch";
  table.columns = {{plain("Item"), Column::Align::Left, 2.0, true},
                   {plain("Needed was"), Column::Align::Left, 1.0, false},
                   {plain("Needed is"), Column::Align::Left, 1.0, false},
                   {plain("Buy"), Column::Align::Left, 1.1, false},
                   {plain("Cost was"), Column::Align::Right, 0.8, false},
                   {plain("Cost is"), Column::Align::Right, 0.8, false}};
  const Printing& how = story.after.printing;
  for (const change::BuyingChange& one : story.comparison.buying) {
    if (!one.moved()) continue;
    const std::string bought =
        one.bought_before == one.bought_after
            ? "as before"
            : std::to_string(one.bought_before) + " → " + unit_count(one.unit, one.bought_after);
    table.rows.push_back(
        row_of({one.name, needed_words(one, true, how), needed_words(one, false, how), bought,
                money_text(one.cost_before), money_text(one.cost_after)}));
  }
  if (table.rows.empty() && story.comparison.total_before == story.comparison.total_after)
    return table;
  Row total{Row::Kind::Total, std::vector<Inlines>(table.columns.size()), false};
  total.cells[0] = plain("All supplies");
  total.cells[4] = plain(money_text(story.comparison.total_before));
  total.cells[5] = plain(money_text(story.comparison.total_after));
  table.rows.push_back(std::move(total));
  return table;
}

Table sheet_table(const ChangeStory& story) {
  Table table;
  table.caption = "Sheets to cut";
  table.columns = {{plain("Paper"), Column::Align::Left, 2.0, true},
                   {plain("One kit was"), Column::Align::Right, 0.8, false},
                   {plain("One kit is"), Column::Align::Right, 0.8, false},
                   {plain("Batch was"), Column::Align::Right, 0.8, false},
                   {plain("Batch is"), Column::Align::Right, 0.8, false}};
  for (const change::SheetCounts& one : story.comparison.sheets)
    if (one.kit.moved() || one.run.moved())
      table.rows.push_back(
          row_of({one.kit.name, std::to_string(one.kit.before), std::to_string(one.kit.after),
                  std::to_string(one.run.before), std::to_string(one.run.after)}));
  return table;
}

Table written_table(const ChangeStory& story) {
  Table table;
  table.caption = "What you changed in the file";
  table.show_caption = true;
  table.columns = {{plain("Where"), Column::Align::Left, 1.6, true},
                   {plain("Was"), Column::Align::Left, 1.4, false},
                   {plain("Is"), Column::Align::Left, 1.4, false}};
  constexpr std::size_t longest = 300; // a whole card that came is told by its pieces below
  const auto shown = [](const std::string& text_of) {
    if (text_of.empty()) return std::string("–");
    if (text_of.size() <= longest) return text_of;
    std::size_t end = longest;
    while (end > 0 && !detail::begins_character(text_of[end])) --end;
    return text_of.substr(0, end) + " …";
  };
  for (const SourceChange& one : story.written)
    table.rows.push_back(row_of({one.where, shown(one.before), shown(one.after)}));
  return table;
}

Section summary(const ChangeStory& story) {
  Section section{"change-summary", "What changes", {}};
  add(section,
      heading(1, "changes", "What changes", {}, story.label_before + " → " + story.label_after));
  if (story.comparison.empty() && story.steps.empty() && story.written.empty()) {
    add(section, lead(plain("Nothing changes.")));
    return section;
  }
  std::string text = table_sentence(story);
  const std::string pages = pages_sentence(story);
  if (!pages.empty()) text += (text.empty() ? "" : " ") + pages;
  const change::Comparison& comparison = story.comparison;
  if (comparison.total_before != comparison.total_after)
    text += (text.empty() ? "" : " ") + std::string("Supplies for the batch now cost ") +
            money_text(comparison.total_after) + ", not " + money_text(comparison.total_before) +
            ".";
  if (!text.empty()) add(section, lead(plain(text)));
  if (!story.written.empty()) add(section, written_table(story));
  bool head = true;
  for (const change::FindingChange& one : comparison.findings) {
    if (std::exchange(head, false)) add(section, heading(2, "findings", "What the rules say"));
    const bool error = one.finding.severity == Severity::Error;
    Notice notice;
    notice.kind = one.gone ? Notice::Kind::Tip
                  : error  ? Notice::Kind::Warning
                           : Notice::Kind::Caution;
    notice.title = one.gone ? "No longer." : error ? "New, an error." : "New.";
    notice.text = plain(words::sentence_case(one.finding.found) +
                        (one.gone ? "." : ". Fix: " + one.finding.fix + "."));
    add(section, std::move(notice));
  }
  return section;
}

void add_table(Section& section, const std::string& title, Table table) {
  if (table.rows.empty()) return;
  add(section, heading(2, {}, title));
  add(section, std::move(table));
}

Section details(const ChangeStory& story) {
  Section section{"change-details", "In detail", {}};
  Section tables{"", "", {}};
  add_table(tables, "Sizes, places and papers", card_changes(story));
  add_table(tables, "Steps of the tutorial", step_table(story));
  add_table(tables, "Sheets", sheet_table(story));
  add_table(tables, "Supplies and costs", buying_table(story));
  add_table(tables, "Things for sale",
            other_changes(story, {Kind::Supply}, "Other changes of supplies", "Supply"));
  add_table(tables, "Tiers, run and project",
            other_changes(story, {Kind::Tier, Kind::Run, Kind::Project}, "Changes of tiers and run",
                          "Of"));
  if (tables.blocks.empty()) return section;
  add(section, heading(1, "details", "In detail"));
  std::move(tables.blocks.begin(), tables.blocks.end(), std::back_inserter(section.blocks));
  return section;
}

// What a person need not look at again.
Section rest(const ChangeStory& story) {
  Section section{"change-rest", "What stays the same", {}};
  const change::Comparison& comparison = story.comparison;
  List list;
  const auto changed_card = [&](const std::string& id) {
    return std::any_of(comparison.things.begin(), comparison.things.end(), [&](const auto& one) {
      const Card* card = card_of(story, one);
      return card && card->id == id;
    });
  };
  std::vector<std::string> cards;
  for (const Card& card : story.after.cards)
    if (!changed_card(card.id)) cards.push_back("“" + card.title + "”");
  if (!cards.empty()) list.items.push_back(plain("Cards: " + words::listed(cards) + "."));
  for (const Card& card : story.after.cards) {
    if (!changed_card(card.id)) continue;
    std::vector<std::string> pieces;
    for (const change::Thing& thing : comparison.same)
      if (thing.kind == Kind::Piece && thing.card >= 0 &&
          &story.after.cards[as_index(thing.card)] == &card)
        pieces.push_back(thing_words(thing));
    if (!pieces.empty())
      list.items.push_back(plain("Of “" + card.title + "”: " + words::listed(pieces) + "."));
  }
  std::vector<std::string> papers, items, tiers;
  for (const change::SheetCounts& one : comparison.sheets)
    if (!one.kit.moved() && !one.run.moved()) papers.push_back(one.kit.name);
  if (!papers.empty()) list.items.push_back(plain("Sheets of: " + words::listed(papers) + "."));
  for (const change::BuyingChange& one : comparison.buying)
    if (!one.moved()) items.push_back(one.name);
  if (!items.empty()) list.items.push_back(plain("To buy: " + words::listed(items) + "."));
  for (const change::Thing& thing : comparison.same)
    if (thing.kind == Kind::Tier) tiers.push_back(thing.name);
  if (!tiers.empty())
    list.items.push_back(plain("Tiers and their prices: " + words::listed(tiers) + "."));
  if (list.items.empty()) return section;
  add(section, heading(2, "rest", "What stays the same"));
  add(section, std::move(list));
  return section;
}

} // namespace

Document change_report(const ChangeStory& story) {
  Document document = shop_document(story.after, "what changes", false);
  document.sections.push_back(summary(story));
  const bool same = story.comparison.empty() && story.steps.empty() && story.written.empty();
  for (Section section : {table_section(story), details(story), rest(story)})
    if (!section.blocks.empty() && !same) document.sections.push_back(std::move(section));
  return document;
}

} // namespace leafwright::guide
