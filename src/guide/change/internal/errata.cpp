#include "guide/change/internal/report_parts.h"
#include "guide/change/report.h"
#include "guide/prose.h"
#include "guide/sections.h"
#include "guide/shop/shop_words.h"
#include "language/words.h"
#include "measure/letters.h"

#include <algorithm>
#include <map>
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

// One thing that another takes the place of everywhere: "Cranberry" by "Rowan".
struct Replacement {
  std::string fact;          // "paper"
  std::string before, after; // ids
  std::string old_name, new_name;
};

const std::string* id_in(const std::optional<change::FactValue>& value) {
  return value ? std::get_if<std::string>(&*value) : nullptr;
}

// A change of one item for one other, wherever the older edition used it, and more than once: said
// once instead of piece by piece.
std::vector<Replacement> replacements(const ChangeStory& story) {
  std::map<std::pair<std::string, std::string>, std::vector<std::string>> seen;
  for (const ThingChange& change : story.comparison.things)
    for (const change::FactChange& fact : change.facts)
      if (const std::string* from = id_in(fact.before), *to = id_in(fact.after);
          names_an_item(fact.name) && from && to && change.how == ThingChange::How::Changed)
        seen[{fact.name, *from}].push_back(*to);
  const std::vector<change::Thing> now = change::facts_of(story.after);
  std::vector<Replacement> found;
  for (const auto& [from, ids] : seen) {
    // Named, since clang 14 lets no lambda capture a structured binding.
    const std::vector<std::string>& to = ids;
    const std::string &fact = from.first, &id = from.second;
    const bool one = std::ranges::all_of(to, [&](const std::string& x) { return x == to.front(); });
    const bool still = std::ranges::any_of(now, [&](const change::Thing& thing) {
      const change::FactValue* value = thing.find(fact);
      const auto* used = value ? std::get_if<std::string>(value) : nullptr;
      return used && *used == id;
    });
    if (!one || still || to.size() < 2) continue;
    found.push_back({fact, id, to.front(), shown(story.before, fact, change::FactValue{id}),
                     shown(story.after, fact, change::FactValue{to.front()})});
  }
  return found;
}

bool is_replacement(const std::vector<Replacement>& all, const change::FactChange& fact) {
  const std::string *from = id_in(fact.before), *to = id_in(fact.after);
  return from && to && std::ranges::any_of(all, [&](const Replacement& one) {
           return one.fact == fact.name && one.before == *from && one.after == *to;
         });
}

Table piece_table(const ChangeStory& story, const std::vector<Replacement>& replaced) {
  Table table;
  table.caption = "Changes in the cut list";
  table.columns = {{plain("Piece"), Column::Align::Left, 1.6, true},
                   {plain("What"), Column::Align::Left, 0.8, false},
                   {plain("Was"), Column::Align::Left, 1.4, false},
                   {plain("Now"), Column::Align::Left, 1.4, false}};
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
      if (matters(fact.name) && !is_replacement(replaced, fact))
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

std::string page_words(const ChangeStory& story, const std::string& anchor) {
  const auto page = story.pages_before.find(anchor);
  return page == story.pages_before.end() ? std::string() : ", page " + page->second;
}

std::string where_words(const ChangeStory& story, const StepChange& step) {
  if (step.number_before.empty()) return step.card + ", a new step " + step.number;
  return step.card + ", step " + step.number_before + page_words(story, step.anchor_before);
}

std::string spoken_text(const std::vector<Inlines>& text) {
  std::string all;
  for (const Inlines& one : text) all += spoken(one) + "\n";
  return small_letters(all);
}

// Whether only the names of replaced things differ.
bool only_replaced(const StepChange& step, const std::vector<Replacement>& replaced) {
  if (step.how != StepChange::How::Changed || step.shape || replaced.empty()) return false;
  std::string before = small_letters(step.title_before) + "\n" + spoken_text(step.text_before);
  for (const Replacement& one : replaced) {
    const std::string from = small_letters(one.old_name), to = small_letters(one.new_name);
    for (std::size_t at = before.find(from); at != std::string::npos && !from.empty();
         at = before.find(from, at + to.size()))
      before.replace(at, from.size(), to);
  }
  return before == small_letters(step.title) + "\n" + spoken_text(step.text);
}

void add_replacements(Section& section, const std::vector<Replacement>& replaced) {
  if (replaced.empty()) return;
  add(section, heading(2, {}, "Everywhere"));
  List list;
  for (const Replacement& one : replaced) {
    Prose prose;
    prose.say("Use ").strong(one.new_name).say(" in place of " + one.old_name + ".");
    list.items.push_back(prose.fragment());
  }
  add(section, std::move(list));
}

void add_steps(Section& section, const ChangeStory& story,
               const std::vector<Replacement>& replaced) {
  bool head = true;
  for (const StepChange& step : story.steps) {
    if (only_replaced(step, replaced)) continue;
    if (head) add(section, heading(2, {}, "Changes in the steps"));
    head = false;
    add(section, heading(3, {}, where_words(story, step)));
    if (step.how == StepChange::How::Gone) {
      add(section, body(plain("Leave out “" + step.title_before + "”.")));
      continue;
    }
    Prose prose;
    prose.strong(step.title + ".").say(" ").append(joined(step.text));
    if (step.drawing && step.figure) {
      Beside beside;
      beside.figure = *step.figure;
      beside.figure.width = Figure::Width::Narrow;
      beside.blocks.push_back({body(prose.fragment()), {}});
      add(section, std::move(beside));
    } else {
      add(section, body(prose.fragment()));
    }
  }
}

void add_sections(Section& section, const ChangeStory& story) {
  for (const SectionChange& one : story.sections) {
    add(section, heading(2, {}, one.title + page_words(story, one.anchor_before)));
    for (const Block& block : one.blocks) section.blocks.push_back(block);
  }
}

// Pages of the booklet in her hands that are in the new one nowhere.
void add_void_pages(Section& section, const ChangeStory& story) {
  if (!story.pages || story.pages->dropped.empty()) return;
  const std::vector<std::string>& pages = story.pages->dropped;
  const bool one = pages.size() == 1;
  add(section,
      body(plain((one ? "Use this sheet in place of page " : "Use this sheet in place of pages ") +
                 words::listed(pages) +
                 " of your booklet. All your other pages are still right.")));
}

} // namespace

bool concerns_buyers(const ChangeStory& story) {
  return !story.steps.empty() || !story.sections.empty() || !story.full_size.empty() ||
         !piece_table(story, {}).rows.empty();
}

Document errata_sheet(const ChangeStory& story) {
  Document document = shop_document(story.after, "corrections", false);
  Section section{"errata", "Corrections", {}};
  add(section, heading(1, "errata", "Corrections", {}, story.after.title));
  if (!concerns_buyers(story)) {
    add(section, lead(plain("If you have " + story.label_before + ", nothing changes for you.")));
    document.sections.push_back(std::move(section));
    return document;
  }
  const std::vector<Replacement> replaced = replacements(story);
  const bool alike = story.label_after.starts_with(story.label_before + ",");
  add(section, lead(plain("You have " + story.label_before + ". " +
                          (alike ? "Since then, these things have changed."
                                 : "In " + story.label_after + ", these things have changed."))));
  add_void_pages(section, story);
  add_replacements(section, replaced);
  if (Table table = piece_table(story, replaced); !table.rows.empty()) {
    add(section, heading(2, {}, "Sizes and papers"));
    add(section, std::move(table));
  }
  add_sections(section, story);
  add_steps(section, story, replaced);
  if (!story.full_size.empty()) {
    add(section, heading(2, {}, "Full-size drawings"));
    add(section, body(plain("Throw away your old drawings of these, and print the new ones.")));
    List list;
    for (const std::string& title : story.full_size) list.items.push_back(plain(title));
    add(section, std::move(list));
  }
  if (!story.after.maker.contact.empty())
    add(section, small(plain("Questions: " + story.after.maker.contact)));
  document.sections.push_back(std::move(section));
  return document;
}

} // namespace leafwright::guide
