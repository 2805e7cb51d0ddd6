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
};

} // namespace leafwright::reading
