#pragma once

#include "read/edit/internal/measured_values.h"
#include "read/read.h"

#include <functional>
#include <vector>

// What single numbers cannot know: how the pieces of the new edition lie on each other. Inside this
// room.

namespace leafwright::edit {

inline bool on_mark(Length a, Length mark) { return a.nm % mark.nm == 0; }

struct Settling {
  const Project& before;
  Unit unit = Unit::Inch;
  Length mark{};
  // The project with the values as they are now.
  std::function<Reading(const std::vector<MeasuredValue>&)> read;
};
// Changes `values` until nothing is left to better, each piece after what carries it. Answers the
// project that they make.
Reading settle(const Settling& how, std::vector<MeasuredValue>& values);

} // namespace leafwright::edit
