#pragma once

#include "guide/block.h"
#include "guide/sections.h"
#include "model/project.h"
#include "plan/supply/buying.h"

#include <string>
#include <vector>

// How the shop's documents name sheets, pieces and amounts.

namespace leafwright::guide {

// Title, edition, author and date of the project under a title of its own.
Document shop_document(const Project& project, const std::string& title, bool draft);

// "9 Full kits, 11 Parts kits and 4 Paper shares"; empty when there are none.
std::string kits_words(const Project& project, const std::vector<int>& kits);

// Each finding as a notice: a remark to know, else something to look at first.
void add_findings(Section& section, const Findings& findings);

std::string sheet_name(const Project& project, int stock, int offer); // "letter"
// "dotted mat of card 1", "inside panel of cards 1 and 2"; a share of a sheet is "share of a
// sheet".
std::vector<std::string> piece_names(const Project& project, const supply::CuttingPlan& sheets,
                                     const supply::CutPiece& piece);

std::string percent_words(Area part, Area whole); // "12 %"

// A count of a line's units: "14 sheets", "2 spools", "1 roll", "36".
std::string units_words(const Project& project, const supply::BuyingLine& line, std::int64_t count);
// One pack of a purchase, counted: "2 packs of 25", "5 packs", "3 spools".
std::string packs_words(const Project& project, const supply::Purchase& purchase);

} // namespace leafwright::guide
