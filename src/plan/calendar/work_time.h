#pragma once

#include "model/project.h"
#include "plan/orders/contents.h"
#include "plan/supply/buying.h"

#include <cstdint>
#include <span>
#include <string>
#include <vector>

// How long the run takes to make, from what is really done: settings and passes at the trimmer,
// dies and stamps where they are promised, parts counted out, parcels closed. Rates are Run::work.

namespace leafwright::calendar {

// Counts of what is done, and the seconds they come to.
struct WorkTime {
  std::int64_t kits = 0, parcels = 0;
  std::int64_t settings = 0, strokes = 0;              // fence set, blade pulled
  std::int64_t dies = 0, impressions = 0;              // ready before posting
  std::int64_t envelopes = 0, items = 0;               // filled with parts; supplies laid in
  std::int64_t cutting = 0, readying = 0, packing = 0; // seconds
  std::int64_t seconds() const { return cutting + readying + packing; }
};

WorkTime work_time_of(const Project& project, const supply::Buying& buying,
                      const orders::Parcels& parcels, std::span<const orders::Contents> contents);

// The timetable of a class in a room.

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

// A card that does not say how long it takes is reckoned at three minutes a step. What has to dry
// is added.
int minutes_of(const Card& card);

} // namespace leafwright::calendar
