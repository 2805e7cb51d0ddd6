#pragma once

#include "model/project.h"

#include <span>
#include <string>
#include <string_view>

// The kinds of things, one row each: whoever reads, counts, prices, lists or says a thing asks its
// row and asks the kind itself only where that kind alone is meant.
//
//   kind_row(ItemKind::Ink).counted              // Things: used and kept, one does
//   sold_of(project, item)                       // how it is sold, whichever list it is in
//   for_each_list(project, [](ItemKind kind, const auto& list) { ... });

namespace leafwright {

// The order in which the trade lists supplies.
enum class Group {
  Cardstock,
  Patterned,
  RibbonAndEmbellishments,
  StampsDiesInks,
  AdhesivesAndTools,
  Envelopes
};

struct KindRow {
  ItemKind kind;
  std::string_view words; // in a finding: "a stamp set"
  // What an amount of it is made of.
  enum class Counted {
    Sheets,   // of paper, whole or cut
    Packs,    // of several papers
    Pieces,   // used up one by one, sold in packs of Sold::count
    Length,   // cut from a spool
    Adhesive, // as its `measured` says
    Things,   // used and kept: one does for any number of cards
    Nothing,  // no supply: the document itself, the cut parts
  } counted;
  std::string_view whole; // one as it is sold: "spool"; empty: the thing itself
  Group group;            // of stocks the plain ones; see group_of()
  int rank;               // within its group
  bool makes_the_card;    // belongs in a kit; the rest is what a maker has at home
  bool plural;            // several are called by the plural of its name
};

// One row for each, in the order of the enumeration.
std::span<const KindRow> kind_rows();
const KindRow& kind_row(ItemKind kind);

// Vellum and clear sheets count as cardstock.
Group group_of(const Project& project, ItemRef item);

// act(kind, list) for every list of things of a project.
template <class Do>
void for_each_list(const Project& project, Do act) {
  act(ItemKind::Stock, project.stocks);
  act(ItemKind::Pack, project.packs);
  act(ItemKind::StampSet, project.stamp_sets);
  act(ItemKind::Die, project.dies);
  act(ItemKind::Ink, project.inks);
  act(ItemKind::Ribbon, project.ribbons);
  act(ItemKind::Embellishment, project.embellishments);
  act(ItemKind::Adhesive, project.adhesives);
  act(ItemKind::Envelope, project.envelopes);
  act(ItemKind::Tool, project.tools);
}

// act(thing) with the thing itself; nothing when it is in no list.
template <class Do>
void with_item(const Project& project, ItemRef item, Do act) {
  for_each_list(project, [&](ItemKind kind, const auto& list) {
    if (kind != item.kind) return;
    if (const auto* thing = find_at(list, item.index)) act(*thing);
  });
}

// How many the project has of a kind.
int count_of(const Project& project, ItemKind kind);

// How a thing is sold; nullptr for papers and packs, which have prices of their own kind, and for
// what is not sold.
const Sold* sold_of(const Project& project, ItemRef item);

} // namespace leafwright
