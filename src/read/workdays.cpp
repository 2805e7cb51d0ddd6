#include "read/workdays.h"

#include "measure/text_cursor.h"
#include "read/fields.h"
#include "read/run.h"

#include <fmt/format.h>

#include <array>
#include <chrono>

namespace leafwright::reading {
namespace {

constexpr std::array day_names = {"sun", "mon", "tue", "wed", "thu", "fri", "sat"};

void read_supplier(Resolver& resolver, const Element& element) {
  Context& context = resolver.context();
  Supplier supplier;
  supplier.place = element.place();
  supplier.name = words_of(element, "name");
  supplier.lead_days = whole_number(context, element, "lead-days", 0, 0, 365);
  if (const auto value = element.attribute("items"))
    for (const ListedWord& word : listed_words(value->view()))
      if (const auto item =
              resolver.catalogue().item_of(context, *value, word.text, word.at, false))
        supplier.items.push_back(*item);
  context.project.run.suppliers.push_back(std::move(supplier));
}

void read_days_off(Context& context, const Element& element) {
  DaysOff days;
  days.place = element.place();
  days.words = words_of(element, "name");
  const auto first = date_of(context, element, "date");
  if (!first) return;
  days.first = days.last = first->date;
  if (const auto last = date_of(context, element, "until")) days.last = last->date;
  if (days.last < days.first) {
    note(context, *element.attribute("until"), "read-date", "a day after the first",
         "exchange date and until");
    days.last = days.first;
  }
  context.project.run.days_off.push_back(std::move(days));
}

void read_days(Context& context, const Value& value, WorkRates& work) {
  std::fill(std::begin(work.works), std::end(work.works), false);
  bool any = false;
  for (const ListedWord& word : listed_words(value.view())) {
    bool known = false;
    for (std::size_t day = 0; day < day_names.size(); ++day)
      if (word.text.size() >= 3 &&
          detail::same_ignoring_case(word.text.substr(0, 3), day_names.at(day)))
        work.works[day] = known = any = true;
    if (!known)
      context.journal.error("read-word", value.place(word.at, word.text.size()),
                            detail::shown(word.text), "days of the week, such as mon tue sat",
                            "write the days on which you work");
  }
  if (!any) work = WorkRates{};
}

void read_work(Context& context, const Element& element) {
  WorkRates& work = context.project.run.work;
  if (const auto days = element.attribute("days")) read_days(context, *days, work);
  const auto seconds = [&](std::string_view name, int& to) {
    to = whole_number(context, element, name, to, 0, 36'000);
  };
  work.minutes_a_day = whole_number(context, element, "minutes-a-day", work.minutes_a_day, 1, 1440);
  work.people = whole_number(context, element, "people", work.people, 1, 1000);
  seconds("setting", work.setting);
  seconds("cut", work.cut);
  seconds("die", work.die);
  seconds("stamp", work.stamp);
  seconds("part", work.part);
  seconds("item", work.item);
  seconds("parcel", work.parcel);
}

void read_labels(Context& context, const Element& element) {
  LabelSheet sheet;
  sheet.place = element.place();
  const std::string paper = words_of(element, "paper", context.project.paper);
  const auto named = find_size(sheet_sizes(), paper);
  if (named) sheet.paper_name = paper;
  sheet.paper = named ? *named : size_of(context, element, "paper", {}, sheet_sizes());
  sheet.label = size_of(context, element, "size", {});
  sheet.columns = whole_number(context, element, "columns", 1, 1, 50);
  sheet.rows = whole_number(context, element, "rows", 1, 1, 100);
  sheet.left = length_of(context, element, "left", {});
  sheet.top = length_of(context, element, "top", {});
  sheet.gap_across = length_of(context, element, "gap-across", {});
  sheet.gap_down = length_of(context, element, "gap-down", {});
  sheet.first = whole_number(context, element, "first", 1, 1, sheet.columns * sheet.rows);
  if (sheet.label == Size{} || sheet.paper == Size{}) return;
  context.project.run.labels = sheet;
}

// `10:00`, `9:30`: minutes after midnight.
int time_of(Context& context, const Element& element, std::string_view name) {
  const auto value = element.attribute(name);
  if (!value) return 0;
  detail::TextCursor cursor(value->view());
  cursor.skip_blanks();
  const auto number = [&](int most) {
    int count = 0, sum = 0;
    for (; detail::is_digit(cursor.peek()) && count < 3; cursor.advance(), ++count)
      sum = sum * 10 + static_cast<int>(cursor.peek() - U'0');
    return count >= 1 && count <= 2 && sum <= most ? sum : -1;
  };
  const int hours = number(23);
  const bool colon = cursor.take(U':');
  const int minutes = number(59);
  cursor.skip_blanks();
  if (hours >= 0 && colon && minutes >= 0 && cursor.done()) return hours * 60 + minutes;
  note(context, *value, "read-time", "a time of day such as 10:00 or 13:30",
       "write hours and minutes, from 0:00 to 23:59");
  return 0;
}

ClassSlot slot_of(Resolver& resolver, const Element& element) {
  static constexpr std::array kinds = {Named{"talk", ClassSlot::Kind::Talk},
                                       Named{"break", ClassSlot::Kind::Break}};
  Context& context = resolver.context();
  ClassSlot slot;
  slot.place = element.place();
  slot.title = words_of(element, "title");
  slot.minutes = whole_number(context, element, "minutes", 0, 1, 1440);
  slot.kind = choice_of(context, element, "kind", kinds, ClassSlot::Kind::Talk);
  const auto card = element.attribute("card");
  if (!card) {
    if (slot.minutes == 0 && !element.has("minutes"))
      context.journal.error("read-missing-attribute", element.place(), "<slot> without minutes",
                            "how long it takes", "write minutes=\"10\"");
    return slot;
  }
  slot.kind = ClassSlot::Kind::Card;
  slot.card = resolver.drafts().card_of(card->view());
  if (slot.card < 0)
    note(context, *card, "read-unknown-name", "the id of a card",
         context.journal.suggestion(card->view(), [&] { return resolver.drafts().card_ids(); }));
  return slot;
}

void read_class(Resolver& resolver, const Element& element) {
  Context& context = resolver.context();
  ClassDay day;
  day.place = day.date_place = element.place();
  day.date = date_of(context, element, "date");
  if (const auto value = element.attribute("date")) day.date_place = value->place();
  constexpr int ten_o_clock = 600;
  day.start = element.has("start") ? time_of(context, element, "start") : ten_o_clock;
  day.places = whole_number(context, element, "places", 0, 1, 1000);
  day.tables = whole_number(context, element, "tables", 1, 1, 1000);
  day.venue = words_of(element, "venue");
  for (const Element& child : element.children("slot"))
    day.slots.push_back(slot_of(resolver, child));
  context.project.run.class_day = std::move(day);
}

} // namespace

void read_workdays(Resolver& resolver, const Element& run) {
  Context& context = resolver.context();
  for (const Element& child : run.children()) {
    if (child.is("supplier")) read_supplier(resolver, child);
    if (child.is("day-off")) read_days_off(context, child);
    if (child.is("work")) read_work(context, child);
    if (child.is("labels")) read_labels(context, child);
    if (child.is("class")) read_class(resolver, child);
  }
}

} // namespace leafwright::reading
