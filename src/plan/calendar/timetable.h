#pragma once

#include "model/project.h"

#include <string>
#include <vector>

// The timetable of a class in a room.

namespace leafwright::calendar {

struct TimetableLine {
  ClassSlot::Kind kind = ClassSlot::Kind::Talk;
  std::string title;
  int card = -1;
  int start = 0; // minutes after midnight of the first day; a class may run past it
  int minutes = 0;
};
struct Timetable {
  std::vector<TimetableLine> lines;
  int minutes() const;
};

// The slots as given; without any, a welcome, each card for as long as it takes, a break once an
// hour and a half has gone by, and ten minutes to tidy up (common practice).
Timetable timetable_of(const Project& project);

// A card that does not say how long it takes is reckoned at three minutes a step.
int minutes_of(const Card& card);

} // namespace leafwright::calendar
