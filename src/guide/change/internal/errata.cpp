#include "guide/change/internal/report_parts.h"
#include "guide/change/report.h"
#include "guide/prose.h"
#include "guide/sections.h"
#include "guide/shop/shop_words.h"
#include "language/words.h"

#include <algorithm>
#include <set>
#include <string_view>
#include <utility>

namespace leafwright::guide {
namespace {

using change::Kind;
using change::ThingChange;

// What a buyer cuts, sticks or buys by. Places of marks and words of steps come with the steps.
bool matters(std::string_view fact) {
  static const std::set<std::string_view> facts = {
      "size",     "paper",      "letter",    "on one card", "die",     "cut with",
      "cut from", "cut length", "shape",     "of",          "with",    "count",
      "envelope", "form",       "size name", "score 1",     "score 2", "score 3"};
  return facts.contains(fact) || fact.starts_with("window");
}

bool names_an_item(std::string_view fact) {
  return fact == "paper" || fact == "die" || fact == "of" || fact == "with" || fact == "envelope";
}

template <class List>
std::string name_in(const List& list, const std::string& id) {
  for (const auto& one : list)
    if (one.id == id) return one.name.empty() ? one.id : one.name;
  return id;
}

std::string shown(const Project& project, std::string_view fact,
                  const std::optional<change::FactValue>& worth) {
  const auto* id = worth ? std::get_if<std::string>(&*worth) : nullptr;
  if (!id || !names_an_item(fact)) return fact_words(worth, project.printing);
  if (fact == "paper") return name_in(project.stocks, *id);
  if (fact == "die") return name_in(project.dies, *id);
  if (fact == "of") return name_in(project.ribbons, *id);
  if (fact == "with") return name_in(project.embellishments, *id);
  return name_in(project.envelopes, *id);
}

Table piece_table(const ChangeStory& story) {
  Table table;
  table.caption = "In the cut list read";
  table.columns = {{plain("Piece"), Column::Align::Left, 1.6, true},
                   {plain("What"), Column::Align::Left, 0.8, false},
                   {plain("Not"), Column::Align::Left, 1.4, false},
                   {plain("But"), Column::Align::Left, 1.4, false}};
  for (const ThingChange& change : story.comparison.things) {
    const Kind kind = change.now().kind;
    if (kind != Kind::Card && kind != Kind::Piece && kind != Kind::Ribbon &&
        kind != Kind::Embellishment)
      continue;
    const bool gone = change.how == ThingChange::How::Gone;
    const Project& project = gone ? story.before : story.after;
    std::string name = words::sentence_case(thing_words(gone ? change.before : change.now()));
    const int card = change.now().card;
    if (kind != Kind::Card && project.cards.size() > 1 && card >= 0)
      name += ", card\u00A0" + std::to_string(card + 1);
    const auto add_row = [&](const std::string& what, const std::string& not_words,
                             const std::string& but) {
      Row row;
      for (const std::string* cell : {&std::as_const(name), &what, &not_words})
        row.cells.push_back(plain(*cell));
      row.cells.push_back(strong(but));
      table.rows.push_back(std::move(row));
    };
    if (change.how != ThingChange::How::Changed) {
      const change::FactValue* size = change.now().find("size");
      const std::string words =
          size ? fact_words(*size, project.printing) : std::string(gone ? "gone" : "new");
      if (gone)
        add_row("gone", words, "leave it out");
      else
        add_row("new", "–", words);
      continue;
    }
    for (const change::FactChange& fact : change.facts)
      if (matters(fact.name))
        add_row(fact.name, shown(story.before, fact.name, fact.before),
                shown(story.after, fact.name, fact.after));
  }
  return table;
}

Inlines joined(const std::vector<Inlines>& paragraphs) {
  Inlines all;
  for (const Inlines& one : paragraphs) {
    if (!all.empty()) all.push_back(Words{" ", Words::Style::Plain});
    all.insert(all.end(), one.begin(), one.end());
  }
  return all;
}

std::string where_words(const ChangeStory& story, const StepChange& step) {
  std::string words = step.card;
  if (!step.number_before.empty()) {
    words += ", step " + step.number_before;
    const auto page = story.pages_before.find(step.anchor_before);
    if (page != story.pages_before.end()) words += ", page " + page->second;
  } else {
    words += ", a new step " + step.number;
  }
  return words;
}

void add_steps(Section& section, const ChangeStory& story) {
  bool head = true;
  for (const StepChange& step : story.steps) {
    if (step.how == StepChange::How::Changed && !step.words) continue;
    if (head) add(section, heading(2, {}, "In the steps read"));
    head = false;
    add(section, heading(3, {}, where_words(story, step)));
    if (step.how == StepChange::How::Gone) {
      add(section, body(plain("Leave out “" + step.title_before + "”.")));
      continue;
    }
    Prose prose;
    prose.strong(step.title + ".").say(" ").append(joined(step.text));
    add(section, body(prose.fragment()));
  }
}

} // namespace

bool concerns_buyers(const ChangeStory& story) {
  return !piece_table(story).rows.empty() || !story.full_size.empty() ||
         std::any_of(story.steps.begin(), story.steps.end(), [](const StepChange& step) {
           return step.words || step.how != StepChange::How::Changed;
         });
}

Document errata_sheet(const ChangeStory& story) {
  Document document = shop_document(story.after, "corrections", false);
  Section section{"errata", "Corrections", {}};
  add(section, heading(1, "errata", "Corrections", {}, story.after.title));
  if (!concerns_buyers(story)) {
    add(section, lead(plain("Whoever holds " + story.label_before + " needs to change nothing.")));
    document.sections.push_back(std::move(section));
    return document;
  }
  add(section,
      lead(plain("You hold " + story.label_before + ". " + words::sentence_case(story.label_after) +
                 " changes what stands here; all the rest of your booklet holds.")));
  if (Table table = piece_table(story); !table.rows.empty()) {
    add(section, heading(2, {}, "Sizes and papers"));
    add(section, std::move(table));
  }
  add_steps(section, story);
  if (!story.full_size.empty()) {
    add(section, heading(2, {}, "Full-size drawings"));
    add(section, body(plain("Do not use the old ones of these; print the new ones.")));
    List list;
    for (const std::string& title : story.full_size) list.items.push_back(plain(title));
    add(section, std::move(list));
  }
  if (!story.after.maker.contact.empty())
    add(section, small(plain("Questions: " + story.after.maker.contact)));
  document.sections.push_back(std::move(section));
  return document;
}

std::vector<std::optional<std::size_t>> aligned(const std::vector<std::string>& a,
                                                const std::vector<std::string>& b) {
  std::vector<std::optional<std::size_t>> partner(b.size());
  // Equal heads and tails first: mostly little differs, and the table is their product.
  std::size_t head = 0;
  while (head < a.size() && head < b.size() && a[head] == b[head]) partner[head] = head, ++head;
  std::size_t tail = 0;
  while (tail < a.size() - head && tail < b.size() - head &&
         a[a.size() - 1 - tail] == b[b.size() - 1 - tail]) {
    partner[b.size() - 1 - tail] = a.size() - 1 - tail;
    ++tail;
  }
  const std::size_t n = a.size() - head - tail, m = b.size() - head - tail;
  std::vector<std::vector<int>> best(n + 1, std::vector<int>(m + 1, 0));
  for (std::size_t i = n; i-- > 0;)
    for (std::size_t j = m; j-- > 0;)
      best[i][j] = a[head + i] == b[head + j] ? best[i + 1][j + 1] + 1
                                              : std::max(best[i + 1][j], best[i][j + 1]);
  for (std::size_t i = 0, j = 0; i < n && j < m;) {
    if (a[head + i] == b[head + j])
      partner[head + j++] = head + i++;
    else if (best[i + 1][j] >= best[i][j + 1])
      ++i;
    else
      ++j;
  }
  return partner;
}

} // namespace leafwright::guide
