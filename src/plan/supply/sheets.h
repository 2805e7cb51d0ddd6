#pragma once

#include "basics/reuse.h"
#include "measure/index.h"
#include "model/project.h"
#include "plan/cut/cut.h"

#include <cstdint>
#include <span>
#include <string>
#include <vector>

// From the pieces of a kit, or of all kits, to sheets: the cut list, how each stock's pieces lie on
// its sheets, and what a plan proves. Lengths are exact; plans come from plan/cut.

namespace leafwright::supply {

struct KitContents; // kits.h

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

// The pieces of sheets that tiers hold or offer for a swap, one line for each size and stock, their
// piece {-1, -1}: S1, S2 ... in the order of the tiers, whoever orders what.
std::vector<CutLine> share_lines(const Project& project);

// Every piece that no sheet of its stock is large enough for in a direction it may lie in:
// "fit-sheet".
Findings pieces_without_sheet(const Project& project);

// --- How they lie on sheets, and in which order they are cut ---

// Pieces that are cut alike and counted out afterwards: in a run all of one size from one stock,
// whichever card they go to; in a kit those of one line, so that each keeps its letter.
struct CutPiece {
  int stock = -1;
  Size size{}; // as held, pattern upright
  SheetOrientation orientation =
      SheetOrientation::Either; // Turned: it lies on the sheet by a quarter turn
  std::vector<int> lines;       // of CuttingPlan::lines
  std::string letters;          // "C", "C F"; "S1" for shares of sheets
  std::int64_t wanted = 0;      // promised to kits
  std::int64_t spare = 0;       // cut beyond that
};

// Where a piece lies on a sheet.
struct Placed {
  int piece = -1; // index into CuttingPlan::pieces
  Rect box;       // on the sheet
  bool turned = false;
};

// Every pass of the blade at one setting of the fence.
struct Setting {
  int number = 1;         // printed beside each of its cuts in the diagram
  Length fence{};         // what is left of (above) the blade
  int cuts = 1;           // of one part
  std::vector<int> moves; // indices into SheetLayout::moves, all parts together
  std::vector<int> gives; // indices into SheetLayout::pieces finished by them, on one sheet
};

// Parts alike that are cut up in one direction: the sheets themselves, then strips.
struct Round {
  Size part;
  bool across = false;     // the blade runs along the width
  std::int64_t parts = 1;  // on all sheets of the layout
  std::int64_t stack = 1;  // parts under the blade at once
  std::int64_t stacks = 1; // parts / stack, rounded up
  std::vector<Setting> settings;
  std::int64_t strokes() const { // of the blade, all stacks
    std::int64_t all = 0;
    for (const Setting& setting : settings) all += setting.cuts * stacks;
    return all;
  }
};

// The cuts as work at a straight trimmer: settings of the fence in order, strips first, stacks as
// high as the trimmer cuts.
struct WorkOrder {
  std::vector<Round> rounds;
  std::int64_t strokes = 0; // of the blade over all sheets of the layout
  int settings = 0;
};

// Sheets cut alike. List, diagram, order and data are all made from this value.
struct SheetLayout {
  int stock = -1, offer = -1; // which sheet of the stock; no offer: an offcut in hand
  Size sheet;
  int times = 1; // sheets cut alike
  std::vector<Placed> pieces;
  std::vector<Rect> leftovers; // disjoint; large enough to keep first
  struct Move {                // one pass of the blade
    int number = 1;            // of its setting in `work`
    bool across = false;       // the cut runs along the width (horizontal) of what is being cut
    Rect from;                 // the part of the sheet that is under the blade
    Length at{};               // distance from its left (or top) edge = setting of the fence
    std::vector<int> gives;    // indices into `pieces` finished by it
  };
  std::vector<Move> moves;
  WorkOrder work;
  bool offcut() const { return offer < 0; }
};

struct StockSheets {
  int stock = -1;
  std::vector<SheetLayout> layouts; // most sheets first, offcuts last
  struct OfSize {
    int offer = -1; // the first offer of a sheet size
    std::int64_t count = 0;
  };
  std::vector<OfSize> by_size; // sheets cut, one entry for each size used
  std::int64_t sheets = 0;     // of all sizes; offcuts not counted
  std::int64_t offcuts = 0;    // used of those in hand
  std::int64_t at_least = 0;   // sheets, proven; 0 where several sizes make it a matter of cost
  bool proven = false;         // no straight-cut plan is better
  std::string words;           // "12 sheets; no straight-cut plan can use fewer than 12"
  std::int64_t pieces = 0;     // cut, spare ones included
  Area used{}, waste{};        // offcuts included
};

// The cutting of a kit or of a whole run.
struct CuttingPlan {
  // cut_list(), then share_lines(), then shares that buyers took beyond what is offered.
  std::vector<CutLine> lines;
  std::vector<std::int64_t> wanted; // by line: promised to kits
  std::vector<std::int64_t> spare;  // by line: cut beyond that; of a size it stands with its first
  std::vector<CutPiece> pieces;     // stock after stock in a run, largest first
  std::vector<StockSheets> stocks;  // in the order of Project::stocks, only those that are cut
  Findings findings; // what cannot be cut, with the number that would make it possible
};

// Plans made before, found again by all that they depend on: most changes to a project leave most
// of its stocks as they were.
using PlanCache = AgeingCache<Fingerprint, cut::Plan>;

struct CutOptions {
  cut::Objective objective = cut::Objective::FewestSheets;
  bool in_hand = true; // begin with the sheets and offcuts in hand, Run::in_hand
  // By stock: whole sheets of the first size that are handed out of those in hand before any is
  // cut.
  std::vector<std::int64_t> given;
  cut::Effort effort; // for each stock
  PlanCache* cache = nullptr;
};

// What a run of so many kits wants cut, not yet laid on sheets. Kits by tier; missing tiers are
// nil. `kit_items` by tier.
CuttingPlan pieces_of_run(const Project& project, const std::vector<KitContents>& kit_items,
                          std::span<const int> kits);
// Lays the pieces of a plan on sheets with straight cuts.
void lay_out(CuttingPlan& plan, const Project& project, const CutOptions& options);

// One kit for one who cuts it at home, a run of one: the least handling on sheets that are bought
// anyway. With several `kits`, the fewest sheets.
CuttingPlan sheets_for(const Project& project, int kits = 1);
CuttingPlan sheets_for(const Project& project, PlanCache& kept);
// How many sheets the kits take, as they are handed out by the sheet; not how to cut them.
CuttingPlan fewest_sheets_for(const Project& project, int kits = 1);

// A whole run, what is in hand first.
CuttingPlan sheets_for_run(const Project& project, std::span<const int> kits,
                           const cut::Effort& effort = {});

// The first offer of each sheet size of a stock.
std::vector<int> sheet_sizes_of(const Stock& stock);

// The project's straight trimmer: the first tool with a cutting length; nullptr when there is none.
const Tool* trimmer_of(const Project& project);

// What straight cuts may do, for one kit as for a run: anything. A trimmer's smallest strip is the
// least that its guard holds down, and what is held is the part that is kept: the sliver falls off
// beyond the blade. So trimmings may be as narrow as they like; only a piece that is itself too
// narrow cannot be held, and the rule fit-strip speaks of it.
cut::Rules cutting_rules();

// How many sheets go under the blade at once: the trimmer's capacity over the paper's caliper, at
// least 1; 1 where either is unknown.
std::int64_t stack_of(const Project& project, int stock);

// Works out `layout.work` from its moves, which get the numbers of their settings.
void order_cuts(SheetLayout& layout, std::int64_t stack);

// Whether what is left of a sheet deserves a place in the box: 2 in (50 mm) on both sides.
bool worth_keeping(const Project& project, Size rest);

// What a plan of the cutter proves, and why a job cannot be done, in sentences.

// What the plan and its bound prove: "12 sheets; no straight-cut plan can use fewer than 12".
std::string proof_in_words(const cut::Plan& plan, const cut::Job& job);

// What is to be added where the clock or the caller ended the search; empty otherwise.
std::string hurry_in_words(const cut::Plan& plan);

// Why there is no plan, in the job's own unit.
std::string fault_in_words(const cut::JobFault& fault, const cut::Job& job);

// What another plan might save at the most, of a plan that costs `cost` where none can cost less
// than `bound`: "0.5 %". Rounded up, for it is a bound.
std::string most_saved(std::int64_t cost, std::int64_t bound);

} // namespace leafwright::supply
