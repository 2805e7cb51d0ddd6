#pragma once

#include "guide/block.h"
#include "guide/change/report.h"
#include "measure/print_length.h"
#include "plan/change/compare.h"

#include <optional>
#include <string>

// Inside this folder.

namespace leafwright::guide {

// "(C) dotted mat of card 1"
std::string line_words(const Project& project, const supply::CutLine& line);
// "2 letter sheets and 1 offcut of Cream"
std::string recut_words(const Project& project, const supply::CuttingPlan& run);
// Pieces on the table; empty when none were asked about.
Section table_section(const ChangeStory& story);
// One sentence for the head of the report; empty without cut pieces.
std::string table_sentence(const ChangeStory& story);

// Which pages of the tutorial are new, and how many it has; empty without pages.
std::string pages_sentence(const ChangeStory& story);

// What a person calls it: "Under the trees", "tree panel (C)".
std::string thing_words(const change::Thing& thing);

// What is to be done to a piece: "as it is", "cut 1/4 in off the right and the bottom",
// "1/8 in too narrow".
std::string refit_words(const change::Refit& refit, const Printing& how);

} // namespace leafwright::guide
