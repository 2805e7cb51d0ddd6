#pragma once

#include "model/project.h"
#include "read/journal.h"
#include "read/read.h"

namespace leafwright::reading {

// What every part of the reader needs at hand.
struct Context {
  const ReadOptions& options;
  const Sources& sources;
  Journal& journal;
  Project& project;
  Unit unit = Unit::Inch; // of bare numbers
  // Points of all stamping so far. A short file can ask for endless much of it, by things that are
  // like each other: beyond the limit no more is made.
  std::size_t points = 0;
  static constexpr std::size_t most_points = 1'000'000;
};

} // namespace leafwright::reading
