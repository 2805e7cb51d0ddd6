#include "read/internal/elements.h"

#include "measure/letters.h"
#include "model/item.h"
#include "read/internal/choices.h"
#include "read/internal/fields.h"
#include "read/order_cells.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <map>
#include <utility>

namespace leafwright::reading {

std::optional<StatedDate> date_of(Context& context, const Element& element, std::string_view name) {
  const auto value = element.attribute(name);
  if (!value) return std::nullopt;
  const auto date = parse_date(value->view());
  if (date) return *date;
  note_misread(context, *value, date.parse_error(), "read-date");
  return std::nullopt;
}

namespace {

std::optional<StockInHand> in_hand_of(Resolver& resolver, const Element& element) {
  Context& context = resolver.context();
  const auto value = element.attribute("item");
  if (!value) return std::nullopt;
  const auto item = resolver.catalogue().item_of(context, *value, value->view(), 0, false);
  if (!item) return std::nullopt;
  StockInHand line;
  line.item = *item;
  line.place = value->place();
  line.count = whole_number(context, element, "count", element.has("offcut") ? 1 : 0);
  if (element.has("sheets")) line.count = whole_number(context, element, "sheets", 0);
  line.offcut = size_of(context, element, "offcut", {});
  line.length = length_of(context, element, "length", {});
  const bool stock = item->kind == ItemKind::Stock, ribbon = item->kind == ItemKind::Ribbon;
  const bool said = element.has("count") || element.has("sheets") || element.has("offcut") ||
                    element.has("length");
  if (!said) {
    context.journal.error("read-missing-attribute", element.place(), "<in-hand> without an amount",
                          "sheets, count, offcut or length", "say how much there is");
  }
  for (const auto& [name, fits] : {std::pair<std::string_view, bool>{"sheets", stock},
                                   std::pair<std::string_view, bool>{"offcut", stock},
                                   std::pair<std::string_view, bool>{"length", ribbon}}) {
    if (!element.has(name) || fits) continue;
    context.journal.error("read-wrong-kind", element.attribute_place(name),
                          fmt::format("{} of {}", name, kind_row(item->kind).words),
                          name == "length" ? "length of a ribbon"
                                           : fmt::format("{} of a stock", name),
                          "write count for other things");
  }
  return line;
}

} // namespace

void read_run(Resolver& resolver, const Element& element) {
  Context& context = resolver.context();
  Run& run = context.project.run;
  run.place = element.place();
  run.of_each = whole_number(context, element, "of-each", run.of_each, 1, 10'000);
  run.spare_percent = whole_number(context, element, "spare", 0, 0, 100);
  run.spare_pieces = whole_number(context, element, "spare-pieces", 0, 0, 1'000);
  run.reply_by = date_of(context, element, "reply-by");
  run.ship_by = date_of(context, element, "ship-by");
  if (const auto value = element.attribute("reply-by")) run.reply_by_place = value->place();
  if (const auto value = element.attribute("ship-by")) run.ship_by_place = value->place();
  if (const auto roster = element.attribute("roster")) {
    const std::string fault = name_fault(roster->view());
    if (fault.empty()) {
      run.roster = roster->text();
      run.roster_place = roster->place();
    } else {
      context.journal.error("read-outside", roster->place(),
                            fmt::format("{}: {}", detail::shown(roster->view()), fault),
                            "a file in the project's folder", "put the roster beside the project");
    }
  }
  std::map<std::string_view, int> tiers;
  for (std::size_t i = 0; i < context.project.tiers.size(); ++i)
    tiers.emplace(context.project.tiers[i].id, static_cast<int>(i));
  for (const Element& child : element.children("expect")) {
    TierCount line;
    line.place = child.place();
    line.kits = whole_number(context, child, "kits", 0, 0, 1'000'000);
    const auto value = child.attribute("tier");
    if (!value) continue;
    line.place = value->place();
    if (const auto tier = tiers.find(value->view()); tier != tiers.end()) {
      line.tier = tier->second;
      run.planned.push_back(line);
      continue;
    }
    note(context, *value, "read-unknown-name", "the id of a tier",
         context.journal.suggestion(value->view(), [&] {
           std::vector<std::string_view> known;
           for (const Tier& tier : context.project.tiers)
             if (known.size() < 2000) known.emplace_back(tier.id);
           return known;
         }));
  }
  for (const Element& child : element.children("in-hand"))
    if (auto line = in_hand_of(resolver, child)) run.in_hand.push_back(*line);
  run.wrapping = mass_of(context, element, "wrapping");
  run.lettered_envelope = mass_of(context, element, "lettered-envelope");
  read_columns(context, element.children("column"));
  read_orders(context, element.children("order"));
  read_workdays(resolver, element);
}

void read_orders(Context& context, const std::vector<Element>& orders) {
  if (orders.empty()) return;
  const OrderNames names(context.project);
  for (const Element& element : orders) {
    const auto cell = [&](std::string_view name) {
      const auto value = element.attribute(name);
      return value ? OrderCell{value->text(), value->place()} : OrderCell{{}, element.place()};
    };
    OrderCells cells;
    cells.place = element.place();
    for (const auto& [word, field] : order_field_words) cells[field] = cell(word);
    // An attribute has no lines of its own.
    std::ranges::replace(cells[OrderField::Address].text, '|', '\n');
    OrderReading reading = read_order(cells, context.project, names);
    for (Finding& finding : reading.findings) context.journal.add(std::move(finding));
    Run& run = context.project.run;
    for (Order& order : reading.orders)
      (counts(order.status) ? run.orders : run.set_aside).push_back(std::move(order));
  }
}

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
  Context& context = resolver.context();
  ClassSlot slot;
  slot.place = element.place();
  slot.title = words_of(element, "title");
  slot.minutes = whole_number(context, element, "minutes", 0, 1, 1440);
  slot.kind = choice_of(context, element, "kind", slot_words, ClassSlot::Kind::Talk);
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
