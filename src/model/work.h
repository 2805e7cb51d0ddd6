#pragma once

#include "model/project.h"

#include <span>
#include <string>
#include <string_view>
#include <vector>

// Kinds of work at the table, in the words of the project file. A tool says which of them it is
// for, a step of the author's own which of them it tells itself, and what a card takes follows from
// its pieces: nothing is told from names or sentences.
//
//   works_of(card).has(Work::Heat)      // some image of it is heat embossed
//   work_row(Work::Round).tool          // "Corner rounder": what does it when no tool is said to

namespace leafwright {

struct WorkRow {
  Work work;
  std::string_view word;  // in the project file: "die-cut"
  std::string_view words; // in a finding: "die cutting"
  bool of_tools;          // may stand in for="…" of a <tool>
  bool of_steps;          // may stand in instead-of="…" of a <step>
  std::string_view tool;  // what does it when no tool of the project is for it; empty: nothing need
};

// One row for each, in the order of the enumeration.
std::span<const WorkRow> work_rows();
const WorkRow& work_row(Work work);

// As they stand in the project file: "die-cut emboss".
std::string words_of(Works works);

// What the making of a card takes. Pieces with an alternative to a die, and ribbon, take scissors
// (common practice).
Works works_of(const Card& card);

Works works_on(const Piece& piece);

// Whether the hole of a tag is punched by hand: a die or a punch cuts it with the tag.
bool punches_hole(const Piece& piece);

// What the author's own words replace when they do not say so: everything but the cutting and the
// rounding, since most of them begin with the piece in hand.
Works usually_replaced();

// The first tool of the project for a work; -1 when there is none.
int tool_for(const Project& project, Work work);

// What the cards take and no tool of the project is for, as tools of the usual names: "Sponge",
// "Scrap paper". A tool in words (`with` of a finish) that is none of the project's is one too.
// `implied` is set in each.
std::vector<Tool> implied_tools(const Project& project);
// A tool of which the maker says no work, and which has the very name of one of those, does that.
void name_works(Project& project);

} // namespace leafwright
