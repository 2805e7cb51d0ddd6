#include "guide/parcels/parcel_documents.h"
#include "guide/prose.h"
#include "guide/sections.h"
#include "guide/shop/shop_words.h"
#include "language/agreement.h"
#include "language/english.h"
#include "language/words.h"
#include "measure/amounts/amounts.h"
#include "measure/index.h"
#include "plan/calendar/icalendar.h"

#include <fmt/format.h>

#include <array>
#include <optional>
#include <utility>

namespace leafwright::guide {

namespace {

using calendar::DayPlan;
using calendar::Entry;

std::string days_words(const Project& project, const Entry& entry) {
  if (entry.first == entry.last) return words::long_day_text(project.language, entry.first);
  return words::long_day_text(project.language, entry.first) + " to " +
         words::long_day_text(project.language, entry.last);
}

// "2 h 30 min", which no line's end parts.
std::string duration_cell(std::int64_t seconds) {
  std::string out;
  for (const char c : words::duration_text(seconds)) {
    if (c == ' ')
      out += "\u00A0";
    else
      out += c;
  }
  return out;
}

// What is wrong, what was expected and what to do, as sentences.
std::string finding_words(const Finding& finding) {
  std::string words = words::sentence_case(finding.found) + ".";
  if (!finding.expected.empty()) words += " Expected: " + finding.expected + ".";
  if (!finding.fix.empty()) words += " Fix: " + finding.fix + ".";
  return words;
}

// What is to be remembered of an entry beside its title.
std::string entry_words(const Project& project, const DayPlan& plan, const Entry& entry) {
  switch (entry.kind) {
  case Entry::Kind::OrderSupplies: {
    const Supplier& supplier = project.run.suppliers.at(as_index(entry.supplier));
    return supplier.lead_days == 0
               ? std::string("pick up right away")
               : "no later; allow " + words::counted(supplier.lead_days, "working day");
  }
  case Entry::Kind::SuppliesHere: return "the day before you cut";
  case Entry::Kind::ReplyBy: return "count the orders, print the shopping list";
  case Entry::Kind::Pack: return words::counted(plan.work.parcels, "parcel");
  case Entry::Kind::Post: return "check your carrier's hours";
  case Entry::Kind::Class: {
    const ClassDay& day = *project.run.class_day;
    std::string words =
        fmt::format("{}:{:02} to {}:{:02}", day.start / 60, day.start % 60,
                    (day.start + entry.minutes) / 60 % 24, (day.start + entry.minutes) % 60);
    return day.venue.empty() ? words : words + ", " + day.venue;
  }
  case Entry::Kind::Cut:
  case Entry::Kind::MakeReady:
  case Entry::Kind::ShipBy: break;
  }
  return {};
}

Table days_table(const Project& project, const DayPlan& plan) {
  Table table;
  table.caption = "What happens when";
  table.columns = {{{}, Column::Align::Centre, 0.3, false},
                   {plain("When"), Column::Align::Left, 1.6, true},
                   {plain("What"), Column::Align::Left, 1.3, false},
                   {plain("Work"), Column::Align::Right, 0.8, false},
                   {plain("Remember"), Column::Align::Left, 1.8, false}};
  for (const Entry& entry : plan.entries) {
    Row row;
    row.cells = {Inlines{TickBox{}}, plain(days_words(project, entry)),
                 strong(calendar::entry_title(project, entry)),
                 plain(entry.seconds > 0 ? duration_cell(entry.seconds) : std::string()),
                 plain(words::sentence_case(entry_words(project, plan, entry)))};
    table.rows.push_back(std::move(row));
  }
  return table;
}

Table work_table(const Project& project, const DayPlan& plan) {
  const WorkRates& rates = project.run.work;
  const calendar::WorkTime& work = plan.work;
  Table table;
  table.caption = "How the time adds up";
  table.columns = {{plain("Work"), Column::Align::Left, 2.0, true},
                   {plain("How often"), Column::Align::Right, 0.8, false},
                   {plain("Each"), Column::Align::Right, 0.7, false},
                   {plain("Total"), Column::Align::Right, 1.0, false}};
  struct Line {
    std::string_view words;
    std::int64_t count;
    int each;
  };
  const std::array lines{
      Line{"Settings of the trimmer", work.settings, rates.setting},
      Line{"Cuts", work.strokes, rates.cut},
      Line{"Passes through the die cutting machine", work.dies, rates.die},
      Line{"Impressions stamped", work.impressions, rates.stamp},
      Line{"Envelopes filled with pieces", work.envelopes, rates.part},
      Line{"Supplies packed", work.items, rates.item},
      Line{"Parcels checked, closed and labeled", work.parcels, rates.parcel},
  };
  // Minutes are shared out so that the lines add up to the total as it is printed.
  std::vector<std::int64_t> seconds;
  seconds.reserve(lines.size());
  for (const Line& line : lines) seconds.push_back(line.count * line.each);
  const std::vector<Money> minutes =
      share_out(Money{(work.seconds() + 59) / 60, project.currency}, seconds);
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const Line& line = lines.at(i);
    if (line.count <= 0) continue;
    Row row;
    row.cells = {plain(line.words), plain(std::to_string(line.count)),
                 plain(fmt::format("{}\u00A0s", line.each)),
                 plain(duration_cell(minutes[i].minor * 60))};
    table.rows.push_back(std::move(row));
  }
  Row total{Row::Kind::Total, std::vector<Inlines>(table.columns.size())};
  total.cells[0] = plain("Total");
  total.cells[3] = plain(duration_cell(work.seconds()));
  table.rows.push_back(std::move(total));
  return table;
}

std::string lead_words(const Project& project, const DayPlan& plan) {
  const calendar::WorkTime& work = plan.work;
  if (work.kits == 0) return "No kits are ordered or expected, so there is no work to plan.";
  std::vector<std::string> kinds;
  if (work.cutting > 0) kinds.emplace_back("cutting");
  if (work.dies > 0) kinds.emplace_back("die-cutting");
  if (work.impressions > 0) kinds.emplace_back("stamping");
  if (work.packing > 0) kinds.emplace_back("packing");
  std::string words = words::figured(work.kits, "kit") + " " + words::agreed("take", work.kits) +
                      " " + words::duration_text(work.seconds()) + " of " + words::listed(kinds) +
                      ".";
  if (plan.done_by)
    words += " You'll be done by " + words::long_day_text(project.language, *plan.done_by) + ".";
  words += " That is " + words::duration_text(work.seconds() / work.kits) + " a kit, with " +
           (plan.people == 1 ? std::string("one person") : words::counted(plan.people, "person")) +
           " at work for " + words::duration_text(std::int64_t{60} * plan.minutes_a_day) +
           " a day.";
  if (plan.earliest_post)
    words += " Parcels can go out from " +
             words::long_day_text(project.language, *plan.earliest_post) + ".";
  return words;
}

} // namespace

Document calendar_page(const Project& project, const DayPlan& plan, const ParcelOptions& options) {
  Document document = shop_document(project, "Plan of work", options.draft);
  Section section{"calendar", "Plan of work", {}};
  add(section, heading(1, "calendar", "Plan of work"));
  add(section, lead(plain(lead_words(project, plan))));
  for (const Finding& finding : plan.findings) {
    Notice notice;
    notice.kind = Notice::Kind::Warning;
    notice.title = "This does not work out.";
    notice.text = plain(finding_words(finding));
    add(section, std::move(notice), finding.place);
  }
  if (!plan.entries.empty()) add(section, days_table(project, plan));
  if (plan.work.seconds() > 0) {
    add(section, heading(3, {}, "How the time adds up"));
    add(section, work_table(project, plan));
    add(section,
        small(plain("The speeds are yours, or a careful beginner's. Weekends and days off are left "
                    "out. Work days are full days, counted back from the day your parcels go "
                    "out.")));
  }
  document.sections.push_back(std::move(section));
  return document;
}

} // namespace leafwright::guide
