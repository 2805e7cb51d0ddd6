#pragma once

#include "guide/block.h"
#include "model/project.h"
#include "plan/supply/needs.h"
#include "plan/supply/sheets.h"

#include <string>
#include <string_view>
#include <vector>

namespace leafwright::guide {

// Edition, maker, terms, and how the booklet was made.
Section colophon_section(const Project& project, const std::string& edition);

// Each sheet to scale with the order of cutting beside it.
// `from_pieces`: its reader got pieces of some sheets.
Section cut_diagrams_section(const Project& project, const supply::CuttingPlan& sheets,
                             bool from_pieces = false);

// Every piece with its letter, size in both units, count for a kit, and what is done after the
// trimmer.
Section cut_list_section(const Project& project, const supply::CuttingPlan& sheets);
Table cut_list_table(const Project& project, const supply::CuttingPlan& sheets);

// What stands in the booklet of one buyer, or of a fellow teacher, in place of or beside what
// stands in everybody's.

// Whether a buyer of this tier gets the parts of every card, cut.
bool comes_cut(const Project& project, const Tier& tier);

// What came with the kit, and what the buyer adds: only things that the cards take.
Section owned_supplies_section(const Project& project, const supply::Needs& needs,
                               const Tier& tier);
// The parts of a kit that comes cut: letter, piece, how many lie in its envelope, how large it is
// there. It takes the place of the cut list.
Section envelopes_section(const Project& project, const supply::CuttingPlan& sheets,
                          const Tier& tier);
// The same for one who gets no booklet: which letter is which.
Section letters_section(const Project& project, const supply::CuttingPlan& sheets,
                        const Tier& tier);

// How many of each a class of `students` takes, each making one kit.
Section class_section(const Project& project, const supply::Needs& one, int students);

// One use of ink on a card.
struct InkUse {
  int card = -1;
  int set = -1, image = -1;               // -1: no stamp, an edge or a sponged ground
  std::string on;                         // "tree panel", "envelope"
  const Impression* impression = nullptr; // or an inked edge
  std::vector<int> inks;
};
// In the order of the cards and of their making.
std::vector<InkUse> ink_uses(const Project& project);

// The ways of printing that the cards use.
void add_methods(Section& section, const Project& project);
// Each image in the inks in which it is first stamped.
void add_images(Section& section, const Project& project);

// Full-size guides: where things lie on each side, and outlines to trace. Empty when nothing is
// laid.
Section templates_section(const Project& project);

// What a tier holds of one needed item: "24 in", "whole set", "cut", "must own"; the quiet "your
// own" when it holds none.
Inlines tier_cell(const Project& project, const Tier& tier, const supply::Need& need);

// Things that tiers hold and no card uses, in the order of the tiers' lists.
std::vector<ItemRef> items_beside_cards(const Project& project, const supply::Needs& needs,
                                        const std::vector<const Tier*>& tiers);
// What a tier holds of such a thing; empty when it holds none.
Inlines beside_cards_cell(const Project& project, const Tier& tier, ItemRef item);
inline constexpr std::string_view beside_cards_words = "More in the kit";

// Whether the tier holds any of the item.
bool holds_some(const Project& project, const Tier& tier, const supply::Need& need);
// Whether the tier neither holds the item nor asks for it.
bool is_your_own(const Project& project, const Tier& tier, const supply::Need& need);

} // namespace leafwright::guide
