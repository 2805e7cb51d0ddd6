#pragma once

#include "guide/change/report.h"

// Inside this folder.

namespace leafwright::guide {

// "(C) dotted mat of card 1"
std::string line_words(const Project& project, const supply::CutLine& line);
// "2 letter sheets and 1 offcut of Cream"
std::string recut_words(const Project& project, const supply::RunSheets& run);
// Pieces on the table; empty when none were asked about.
Section table_section(const ChangeStory& story);
// One sentence for the head of the report; empty without cut pieces.
std::string table_sentence(const ChangeStory& story);

} // namespace leafwright::guide
