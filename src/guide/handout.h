#pragma once

#include "guide/block.h"
#include "model/project.h"
#include "plan/supply/sheets.h"

// Sheets for a room: one sheet of paper a card, to work from without the booklet.

namespace leafwright::guide {

struct HandoutOptions {
  bool teacher = false; // with what is prepared before class, and for how many
  int students = 0; // in class, each making one kit; 0 = as the project's class day, or one table
  int tables = 0;
  bool draft = false;
};

// One section "card-<id>" a card, each beginning a page: how it looks, its pieces with their sizes
// and scores, how they lie, its steps in brief, room for notes; for the teacher the counts to
// prepare, and first a sheet of the whole class.
Document handouts(const Project& project, const supply::CuttingPlan& sheets,
                  const HandoutOptions& options);

// Only one card of it, for finding how it fits.
Document one_handout(const Document& all, std::size_t section);

} // namespace leafwright::guide
