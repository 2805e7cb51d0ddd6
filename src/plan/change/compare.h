#pragma once

#include "measure/amounts/amounts.h"
#include "model/project.h"
#include "plan/supply/buying.h"
#include "plan/supply/sheets.h"

#include <cstdint>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <variant>
#include <vector>

// A project taken apart into facts: everything the model says, each under the name of the thing it
// is about. Two projects are the same when their facts are; what differs between two editions is
// what differs between their facts. Places in the file are no facts.

namespace leafwright::change {

// What is compared but not printed: an outline, the bytes of a picture.
struct Drawn {
  std::string exact;
  friend bool operator==(const Drawn&, const Drawn&) = default;
};
using FactValue = std::variant<std::string, std::int64_t, Length, Size, Point, Money, Drawn>;

struct Fact {
  std::string name; // "size", "place", "stamp 1 inks", "price"
  FactValue worth;
  friend bool operator==(const Fact&, const Fact&) = default;
};

// In the order in which a report tells them.
enum class Kind { Project, Card, Piece, Ribbon, Embellishment, Step, Supply, Tier, Run };

struct Thing {
  Kind kind = Kind::Project;
  std::string key;  // "trees/mat", "stock kraft", "tier full": the same in every edition
  std::string name; // "dotted mat", "Kraft"
  int card = -1;    // of things of a card
  int piece = -1;   // index among its pieces; a base or panel
  Place place;
  std::vector<Fact> facts; // no name twice

  const FactValue* find(std::string_view fact) const;
};

// Cards in order, each followed by what it holds in the order of the file; then supplies, tiers and
// the run.
std::vector<Thing> facts_of(const Project& project);

// Whether a piece that is cut already can be the piece that is wanted now.

// A piece as it lies on the table: cut, scored, its openings cut out. Not yet stamped.
struct CutState {
  Size size;
  Shape shape;
  Size blank; // the rectangle that its die or the scissors need; equals size for trimmer pieces
  std::vector<Score> scores;
  std::vector<Window> windows;
  supply::SheetOrientation orientation = supply::SheetOrientation::Either;
};
CutState cut_state(const Project& project, const supply::CutLine& line);

// The same paper in the hand: what a different price or pack does not change.
bool same_paper(const Stock& a, const Stock& b);

enum class Fate { Good, Trim, Lost };
enum class Loss { None, Paper, TooSmall, Outline, Fold, Opening };

struct Refit {
  Fate fate = Fate::Lost;
  bool turned = false; // by a quarter turn clockwise; only where the paper has no direction
  Length left{}, top{}, right{}, bottom{}; // Trim: to be cut off each edge, as it then lies
  bool cut_out = false;                    // Trim: cut again with the die, or along the outline
  Length around{};                         // what its blank has round it, where that is less
                                           // than planned; at least 1/16 in
  int new_scores = 0, new_windows = 0;     // Good, Trim: still to be made
  Loss loss = Loss::None;                  // Lost
  Length narrow{}, low{};                  // TooSmall: what is missing in width and height
};

// Orientation is kept unless both may lie either way. A score or an opening that would stay in
// sight spoils the piece; one that falls into what is cut off does not, and where scores must stay
// in their places, what is cut off is shared between the two edges.
Refit refit(const CutState& have, const CutState& want);

// The pieces on the table when an edition changes: which serve on, which can be trimmed, which are
// lost, what must be cut again, and from how many sheets.

struct OnTable {
  // By letter of the old edition: how many are cut. Nothing: the whole old run is, and what its
  // plan leaves over lies ready as offcuts.
  std::optional<std::map<std::string, std::int64_t>> cut;
  // Letters of the old edition whose pieces are blanks: trimmed, not yet die-cut, scored or opened.
  std::set<std::string> blanks;
  // Ids of dies that were only measured wrongly: what they cut already has the size of the new
  // edition.
  std::set<std::string> measured_dies;
};

// So many of one old pile become pieces of one new line.
struct Use {
  int old_line = -1, new_line = -1;
  std::int64_t count = 0;
  Refit how;
};

struct Pile { // one line of the old cut list
  int old_line = -1;
  int new_line = -1; // of the same piece of the same card; -1: it is gone
  std::int64_t cut = 0, good = 0, trimmed = 0;
  std::int64_t spare = 0; // good for its own piece, but more than are needed now
  std::int64_t lost = 0;
  Refit own; // what it would be for its own piece
};
struct Wanted { // one line of the new cut list
  int new_line = -1;
  std::int64_t needed = 0, good = 0, trimmed = 0, to_cut = 0;
};

struct TableVerdict {
  std::vector<Pile> piles;     // in the order of the old cut list, only what was cut
  std::vector<Wanted> wanted;  // in the order of the new cut list, only what is needed
  std::vector<Use> uses;       // pile after pile
  supply::CuttingPlan old_run; // Pile::old_line points into its lines
  supply::CuttingPlan to_cut;  // the pieces to cut, laid on sheets; new_line points into its lines
  std::int64_t good = 0, trimmed = 0, spare = 0, lost = 0, recut = 0;
  std::int64_t sheets = 0, offcuts = 0;  // that the recutting takes
  std::vector<std::string> unknown;      // letters in OnTable::cut or blanks that no piece has
  std::vector<std::string> unknown_dies; // in OnTable::measured_dies
};

// As many square inches of wanted pieces as can be are served from the piles; then as few pieces as
// can be are trimmed; then each pile serves its own piece. Lost rectangles count among the offcuts.
TableVerdict judge(const Project& before, const supply::Buying& bought_before, const Project& after,
                   const supply::Buying& bought_after, const OnTable& table,
                   const cut::Effort& effort = {});

// Two editions of a project, or one project before and after a measurement changes, side by side.

// A project with what was worked out from it.
struct Edition {
  const Project& project;
  const supply::CuttingPlan& kit;
  const Findings& findings; // of reading and of the rules
  const supply::Buying& buying;
};

struct FactChange {
  std::string name;
  std::optional<FactValue> before, after; // nothing: there was no such fact
};
struct ThingChange {
  enum class How { Added, Gone, Changed };
  How how = How::Changed;
  Thing before, after; // one of them is empty when it was added or is gone
  std::vector<FactChange> facts;
  const Thing& now() const { return how == How::Gone ? before : after; }
  const FactChange* find(std::string_view fact) const;
};

struct FindingChange {
  bool gone = false; // else it is new
  Finding finding;
};

// Two numbers of one thing. Names and units come from the item.
struct Counts {
  std::string key, name; // "stock kraft"
  std::int64_t before = 0, after = 0;
  bool moved() const { return before != after; }
};
struct SheetCounts {
  Counts kit, run; // sheets of one kit; of the whole run
};
// What is needed and bought of one item, in its unit, and what that costs.
struct BuyingChange {
  std::string key, name;
  supply::BuyingLine::CountedIn unit = supply::BuyingLine::CountedIn::Pieces;
  std::int64_t needed_before = 0, needed_after = 0;
  std::int64_t bought_before = 0, bought_after = 0;
  Length length_before{}, length_after{}; // ribbon, tape
  Mass mass_before{}, mass_after{};       // glue
  Money cost_before, cost_after;
  bool moved() const;
};

struct Comparison {
  std::vector<ThingChange> things; // what differs, in the order of the new edition; gone ones last
  std::vector<Thing> same;         // what does not, in the same order
  std::vector<FindingChange> findings;
  std::size_t findings_same = 0;
  std::vector<SheetCounts> sheets;  // by stock, moved or not
  std::vector<BuyingChange> buying; // by item, moved or not
  Money total_before, total_after;  // of the run's buying
  std::optional<TableVerdict> table;

  // Nothing differs, worked out or said.
  bool empty() const;
};

struct CompareOptions {
  std::optional<OnTable> table; // nothing: cut pieces are not asked about
  cut::Effort effort;           // for the recutting
};

Comparison compare(const Edition& before, const Edition& after, const CompareOptions& options = {});

// The facts alone.
std::vector<ThingChange> differences(const std::vector<Thing>& before,
                                     const std::vector<Thing>& after, std::vector<Thing>* same);

} // namespace leafwright::change
