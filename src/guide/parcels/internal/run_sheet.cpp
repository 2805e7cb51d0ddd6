#include "guide/parcels/parcel_documents.h"
#include "guide/prose.h"
#include "guide/sections.h"
#include "guide/shop/shop_words.h"
#include "language/english.h"
#include "language/words.h"
#include "measure/index.h"
#include "plan/calendar/work_time.h"
#include "plan/supply/needs.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace leafwright::guide {

namespace {

using calendar::Timetable;
using calendar::TimetableLine;

std::string lead_words(const Project& project, const ClassDay& day, const Timetable& timetable) {
  std::string words;
  if (day.date) words = words::long_day_text(project.language, day.date->date) + ", ";
  words += clock_words(day.start) + " to " + clock_words(day.start + timetable.minutes());
  if (!day.venue.empty()) words += ", " + day.venue;
  words += ".";
  if (day.places > 0)
    words += " " + words::sentence_case(words::counted(day.places, "place")) + " at " +
             words::counted(day.tables, "table") + ".";
  words += " " + words::sentence_case(time_words(timetable.minutes())) + " in all.";
  return words;
}

Table timetable_table(const Project& project, const Timetable& timetable) {
  Table table;
  table.caption = "Timetable";
  table.columns = {{plain("From"), Column::Align::Right, 0.5, true},
                   {plain("To"), Column::Align::Right, 0.5, false},
                   {plain("What"), Column::Align::Left, 2.0, false},
                   {plain("Minutes"), Column::Align::Right, 0.6, false},
                   {plain("Have ready"), Column::Align::Left, 2.4, false}};
  for (const TimetableLine& line : timetable.lines) {
    std::string ready;
    if (line.kind == ClassSlot::Kind::Card) {
      // Paper lies in the kits; what the teacher hands round is what is used and kept.
      std::vector<std::string> names;
      for (const supply::Need& need : supply::needs_of(project, line.card))
        if (need.item.kind == ItemKind::Die || need.item.kind == ItemKind::Ink ||
            need.item.kind == ItemKind::StampSet)
          names.push_back(need.item.kind == ItemKind::Ink ? item_noun(project, need.item) + " ink"
                                                          : item_noun(project, need.item));
      ready = words::sentence_case(words::listed(names));
    }
    Inlines what = line.kind == ClassSlot::Kind::Break ? quiet(line.title) : strong(line.title);
    if (line.card >= 0 && project.cards.size() > 1)
      what =
          Prose().strong(line.title).quiet(fmt::format(" card\u00A0{}", line.card + 1)).fragment();
    Row row;
    row.cells = {plain(clock_words(line.start)), plain(clock_words(line.start + line.minutes)),
                 std::move(what), plain(std::to_string(line.minutes)), plain(ready)};
    table.rows.push_back(std::move(row));
  }
  return table;
}

// What is shared by those who sit at one table, and what the teacher keeps.
Section tables_section(const Project& project, const ClassDay& day) {
  Section section{"run-tables", "What goes on each table", {}};
  add(section, heading(2, "run-tables", "What goes on each table"));
  const int tables = std::max(day.tables, 1);
  const int at_one = day.places > 0 ? (day.places + tables - 1) / tables : 0;
  Ticks each, shared, teacher;
  if (at_one > 0) {
    std::string kits = at_one == 1 ? "1 kit" : fmt::format("{} kits, one at each place", at_one);
    if (day.places % tables != 0)
      kits += fmt::format(" (one table has {})", day.places - at_one * (tables - 1));
    each.items.push_back(strong(kits));
  } else {
    each.items.push_back(strong("One kit at each place"));
  }
  each.items.push_back(plain("A tutorial at each place"));
  each.items.push_back(plain("Scrap paper for stamping off, and a cloth"));
  const supply::Needs needs = supply::needs_of_set(project);
  for (const supply::Need& need : needs) {
    const std::string name = words::tie_measures(item_name(project, need.item));
    switch (need.item.kind) {
    case ItemKind::StampSet:
    case ItemKind::Ink: {
      Prose prose;
      if (need.item.kind == ItemKind::Ink) prose.ink(need.item.index);
      prose.say(name);
      shared.items.push_back(prose.fragment());
      break;
    }
    case ItemKind::Adhesive: shared.items.push_back(plain(name)); break;
    case ItemKind::Tool: {
      const Tool& tool = project.tools.at(as_index(need.item.index));
      // What burns or presses stays where the teacher sees it.
      const bool guarded = tool.risk == Tool::Risk::Heat || tool.risk == Tool::Risk::Pressure;
      (guarded ? teacher : shared).items.push_back(plain(name));
      break;
    }
    case ItemKind::Die: teacher.items.push_back(plain(name)); break;
    default: break;
    }
  }
  teacher.items.push_back(plain("A finished card of each design"));
  teacher.items.push_back(plain("A kit to work from, and spare pieces"));
  each.columns = shared.columns = teacher.columns = 3;
  add(section, heading(3, {}, "At each place"));
  add(section, std::move(each));
  add(section, heading(3, {}, "In the middle of each table, shared"));
  add(section, std::move(shared));
  add(section, heading(3, {}, "On the teacher's table"));
  add(section, std::move(teacher));
  add(section, heading(3, {}, "Before you begin, say"));
  const bool hot = std::any_of(project.tools.begin(), project.tools.end(),
                               [](const Tool& tool) { return tool.risk == Tool::Risk::Heat; });
  if (hot)
    add(section, Notice{Notice::Kind::Caution, "Heat.",
                        plain("One person at a time at the heat tool, on a mat that does not burn, "
                              "with the cable where nobody walks.")});
  for (Notice& notice : cautions(project)) add(section, std::move(notice));
  return section;
}

Section demo_section(const Project& project, const Timetable& timetable) {
  Section section{"run-demo", "What to show, in order", {}};
  add(section, heading(1, "run-demo", "What to show, in order"));
  add(section, lead(plain("Show a step, then let everyone do it. The drawing of each step "
                          "is in the tutorial under the same number.")));
  for (const TimetableLine& line : timetable.lines) {
    if (line.kind != ClassSlot::Kind::Card) continue;
    const Card& card = project.cards.at(as_index(line.card));
    add(section,
        Heading{2,
                {},
                card.title,
                std::to_string(line.card + 1),
                clock_words(line.start) + " · " + time_words(line.minutes)},
        card.place);
    Ticks ticks;
    ticks.columns = 3;
    for (const Step& step : steps_of({project, card}, card_anchor(card.id)).steps)
      ticks.items.push_back(
          Prose().quiet(step.number + (step.number.empty() ? "" : " ")).say(step.title).fragment());
    add(section, std::move(ticks));
  }
  return section;
}

} // namespace

Document run_sheet(const Project& project, const ParcelOptions& options) {
  Document document = shop_document(project, "Run sheet", options.draft);
  const ClassDay day = project.run.class_day.value_or(ClassDay{});
  const Timetable timetable = calendar::timetable_of(project);
  Section section{"run-sheet", "Run sheet", {}};
  add(section, heading(1, "run-sheet", "Run sheet"));
  add(section, lead(plain(lead_words(project, day, timetable))));
  if (!project.run.class_day)
    add(section,
        Notice{Notice::Kind::Tip, "No class yet.",
               plain("The times come from the cards alone. Add the class to the project, and its "
                     "date, places and timetable appear here.")});
  add(section, timetable_table(project, timetable));
  document.sections.push_back(std::move(section));
  document.sections.push_back(tables_section(project, day));
  document.sections.push_back(demo_section(project, timetable));
  return document;
}

} // namespace leafwright::guide
