#include "plan/calendar/timetable.h"

#include "measure/index.h"

#include <algorithm>

namespace leafwright::calendar {

namespace {

constexpr int welcome_minutes = 10, tidy_minutes = 10, break_minutes = 15, until_break = 90;
constexpr int minutes_a_step = 3;

} // namespace

int Timetable::minutes() const {
  int all = 0;
  for (const TimetableLine& line : lines) all += line.minutes;
  return all;
}

int minutes_of(const Card& card) {
  if (card.minutes > 0) return card.minutes;
  return std::max(minutes_a_step * static_cast<int>(card.build.size()), minutes_a_step);
}

Timetable timetable_of(const Project& project) {
  Timetable timetable;
  const ClassDay day = project.run.class_day.value_or(ClassDay{});
  int at = day.start;
  const auto add = [&](ClassSlot::Kind kind, std::string title, int card, int minutes) {
    timetable.lines.push_back({kind, std::move(title), card, at, minutes});
    at += minutes;
  };
  const auto add_card = [&](int card, std::string title, int minutes) {
    const Card& of = project.cards.at(as_index(card));
    add(ClassSlot::Kind::Card, title.empty() ? of.title : std::move(title), card,
        minutes > 0 ? minutes : minutes_of(of));
  };
  if (!day.slots.empty()) {
    for (const ClassSlot& slot : day.slots) {
      if (slot.kind == ClassSlot::Kind::Card) {
        if (slot.card >= 0) add_card(slot.card, slot.title, slot.minutes);
        continue;
      }
      const bool rest = slot.kind == ClassSlot::Kind::Break;
      add(slot.kind, slot.title.empty() ? (rest ? "Break" : "Talk") : slot.title, -1, slot.minutes);
    }
    return timetable;
  }
  add(ClassSlot::Kind::Talk, "Welcome, tools and paper", -1, welcome_minutes);
  int since_break = welcome_minutes;
  for (std::size_t card = 0; card < project.cards.size(); ++card) {
    const int minutes = minutes_of(project.cards[card]);
    if (card > 0 && since_break + minutes > until_break) {
      add(ClassSlot::Kind::Break, "Break", -1, break_minutes);
      since_break = 0;
    }
    add_card(static_cast<int>(card), {}, minutes);
    since_break += minutes;
  }
  add(ClassSlot::Kind::Talk, "Tidy up, questions", -1, tidy_minutes);
  return timetable;
}

} // namespace leafwright::calendar
