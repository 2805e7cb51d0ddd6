#pragma once

#include "measure/ageing_cache.h"
#include "measure/fingerprint.h"
#include "measure/index.h"
#include "model/project.h"
#include "plan/cut/cut.h"

#include <string>
#include <vector>

namespace leafwright::supply {

// How a piece may lie on a sheet of its stock.
enum class SheetOrientation {
  Upright, // as it stands on the card
  Turned,  // by a quarter turn
  Either,
};

// A pattern with a top wants its pieces upright. Card folds cleanly along the grain and cracks
// across it (common practice), so a scored piece lies with its scores along the grain where that is
// known. Scores in both directions cannot be pleased and bind nothing.
SheetOrientation wished_orientation(const Stock& stock, const Piece& piece);

// Whether a rectangle fits on one of the stock's sheets when it lies so.
bool fits_a_sheet(const Stock& stock, Size rectangle, SheetOrientation orientation);

// The wished lie, or Either when only the grain asks for it and no sheet is large enough that way.
SheetOrientation sheet_orientation(const Stock& stock, const Piece& piece);

// What is cut with the trimmer: Piece::cut_from, or the piece itself when that is not set.
Size rectangle_of(const Piece& piece);

// From the pieces of a kit to sheets: the cut list, and how each stock's pieces lie on its sheets.

struct PieceRef {
  int card = -1, piece = -1;
  friend constexpr bool operator==(PieceRef, PieceRef) = default;
};

inline const Piece& piece_of(const Project& project, PieceRef ref) {
  return project.cards.at(as_index(ref.card)).pieces.at(as_index(ref.piece));
}

// One line of the cut list.
struct CutLine {
  PieceRef piece;
  std::string letter;
  int stock = -1;
  Size rectangle;       // what is cut with the trimmer (Piece::cut_from)
  bool may_turn = true; // false when the pattern has a top or the grain must run one way
  int per_card = 1;
  int per_set = 1; // one of each card
  int per_kit = 1; // run.of_each of each card
};
std::vector<CutLine> cut_list(const Project& project);

// Every piece that no sheet of its stock is large enough for in a direction it may lie in:
// "fit-sheet".
Findings pieces_without_sheet(const Project& project);

// Where a piece lies on a sheet; a leftover has no line.
struct Placed {
  int line = -1; // index into the cut list
  Rect box;      // on the sheet
  bool turned = false;
};
struct SheetLayout {
  int stock = -1, offer = -1; // which sheet of the stock
  Size sheet;
  int times = 1; // sheets cut alike
  std::vector<Placed> pieces;
  std::vector<Rect> leftovers; // disjoint; large enough to keep first
  struct Move {                // one pass of the blade, in order
    int number = 1;
    bool across = false;    // the cut runs along the width (horizontal) of what is being cut
    Rect from;              // the part of the sheet that is under the blade
    Length at{};            // distance from its left (or top) edge = setting of the fence
    std::vector<int> gives; // indices into `pieces` finished by it
  };
  std::vector<Move> moves;
};
struct StockSheets {
  int stock = -1;
  int sheets = 0;   // all layouts together
  int at_least = 0; // proven lower bound
  Area used{}, waste{};
  std::vector<SheetLayout> layouts;
};
struct KitSheets {
  std::vector<CutLine> lines;
  std::vector<StockSheets> stocks; // in the order of Project::stocks, only those used
  Findings findings;               // pieces_without_sheet: they are in no layout
};
// Lays out `kits` kits (1 for the tutorial's own diagrams) with straight cuts.
KitSheets sheets_for(const Project& project, int kits = 1);

// Whether what is left of a sheet deserves a place in the box: 2 in (50 mm) on both sides.
bool worth_keeping(const Project& project, Size rest);

// Plans of kits made before, found again by all that they depend on: most changes to a project
// leave most of its stocks as they were.
using PlanCache = AgeingCache<Fingerprint, cut::Plan>;

// The same as sheets_for(project) for one kit.
KitSheets sheets_for(const Project& project, PlanCache& kept);

} // namespace leafwright::supply
