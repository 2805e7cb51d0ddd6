#pragma once

#include "plan/supply/needs.h"

#include <cstdint>
#include <string>
#include <vector>

// What one kit of a tier hands over: shares, "as needed" and cut parts worked out to sheets, pieces
// and lengths. Buying adds them up; packing slips and tier values read them as they are.
//
//   const KitKind kit = kit_kind(project, 0, 12);        // twelve kits of the first tier
//   const KitMass mass = mass_of_contents(project, kit.kit_items);

namespace leafwright::supply {

// Pieces of one size cut from a stock for one kit.
struct StockCut {
  int line = -1; // of cut_list(); -1: a share of a sheet, cut to `size` and given as it is
  Size size{};   // as held, pattern upright
  std::int64_t count = 0;
};

struct RibbonCut {
  Length length{};
  std::int64_t count = 0;
};

// Which fields are filled depends on the kind of item:
//   Stock          cuts, and sheets given whole (of its first offer)
//   Pack           packs, given unopened; a share of one is told by its stocks instead
//   Ribbon         cuts of ribbon, and spools given whole in `packs`
//   Embellishment, Envelope   pieces, and `packs` unopened
//   Adhesive       pieces (squares, dots), length, mass or area as consumed, and whole rolls in
//   `packs` Die, StampSet, Ink, Tool  pieces: whole things
struct KitItem {
  ItemRef item;
  int inclusion = -1; // index into Tier::includes
  bool gift = false;
  std::int64_t packs = 0;
  std::int64_t sheets = 0;
  std::int64_t pieces = 0;
  std::vector<StockCut> cuts;
  std::vector<RibbonCut> lengths;
  Length length{};
  Mass mass{};
  Area area{};
};

struct KitContents {
  std::vector<KitItem>
      kit_items;     // in the order of Tier::includes; one inclusion may take several items
  Findings findings; // shares that are no whole number of pieces
};
KitContents kit_contents_of(const Project& project, int tier);
KitContents kit_contents_of(const Project& project, const Tier& tier);

// Pieces of sheets that a kit of the tier holds, as they lie in their envelopes.
struct KitShare {
  std::string letter; // of share_lines()
  int stock = -1;
  Size size{};
  std::int64_t count = 0;
  bool gift = false;
  int inclusion = -1; // index into Tier::includes
};
std::vector<KitShare> shares_of(const Project& project, const Tier& tier);

// The piece that a share `numerator/denominator` of `sheets` sheets leaves after the whole sheets
// are given: the sheet halved (or cut by the next prime) across its longer side until the parts are
// small enough. A quarter of two 12 x 12 in sheets is one piece of 6 x 12 in (common practice).
struct SheetShare {
  std::int64_t whole = 0; // sheets
  Size piece{};
  std::int64_t pieces = 0; // of that size
};
SheetShare share_of_sheets(std::int64_t sheets, Size sheet, std::int64_t numerator,
                           std::int64_t denominator);

// The kinds of kit that a run is made of.

// One way a kit is made up: as its tier says, or changed for buyers who own some of it.
struct KitKind {
  int tier = -1;
  std::vector<Inclusion> includes; // the tier's, or what takes their place
  KitContents kit_items;           // of one kit; KitItem::inclusion points into `includes`
  int kits = 0;
};

// `tier` with `includes` in the place of its own.
KitKind kit_kind(const Project& project, int tier, std::vector<Inclusion> includes, int kits);
// As the tier says.
KitKind kit_kind(const Project& project, int tier, int kits);

// How many lettered envelopes hold its parts: one for each letter, gifts apart.
std::int64_t lettered_envelopes(const KitContents& kit_items);

// What one kit weighs, without its wrapping. Whole things by the mass of one; what has none is
// named. The tutorial weighs nothing: it goes by mail of the other kind.
KitMass mass_of_contents(const Project& project, const KitContents& kit_items);

} // namespace leafwright::supply
