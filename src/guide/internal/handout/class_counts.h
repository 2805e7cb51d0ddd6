#pragma once

#include "guide/block.h"
#include "guide/tutorial.h"
#include "model/project.h"
#include "plan/supply/sheets.h"

#include <vector>

// What a teacher prepares before class, counted for one, for a table, for all.

namespace leafwright::guide {

// Who sits where: as the options say, else as the project's class day does, else one table of
// eight.
struct ClassSize {
  int students = 8, tables = 1;
  int at_table() const { return (students + tables - 1) / tables; } // the fullest
};
ClassSize class_of(const Project& project, const HandoutOptions& options);

// A piece that a die, a punch or scissors bring into shape is cut larger first. Whether the card
// has one; the size to cut; and the finished size, empty where that is the size it is cut to.
bool any_blank(const Card& card);
std::string cut_size_words(const Project& project, const Piece& piece);
std::string finished_size_words(const Project& project, const Piece& piece);

// The parts of one card: for one student, for a table, for all with the spare ones.
void add_card_counts(Section& section, const Project& project, const supply::CuttingPlan& sheets,
                     std::size_t card, ClassSize size);

// Everything that is no cut part, on a sheet of its own: "class".
Section class_sheet(const Project& project, const supply::CuttingPlan& sheets, ClassSize size);

// What one card's handout warns of beside its steps, a line each, by what the card uses: its tools,
// parts small enough to swallow, what runs on a battery, and the maker's own cautions that speak of
// a thing of this card. Batteries and flames are common practice; all defer to the makers.
std::vector<Notice> room_cautions(const Project& project, int card);

} // namespace leafwright::guide
