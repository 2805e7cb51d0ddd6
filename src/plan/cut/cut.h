#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <stop_token>
#include <string>
#include <string_view>
#include <vector>

// Straight-cut (guillotine) planning: which sheets to buy and how to cut them, with a proven
// bound.
//
// Every length is an integer in one unit of the caller's choice (a job from the project uses
// nanometres); the planner divides by the greatest common divisor itself. The mathematics and its
// sources are told in cut.md of this folder.

namespace leafwright::cut {

using Length = std::int64_t;

// One size of piece and how many of it are wanted.
struct PieceType {
  std::string id;
  Length width = 0;
  Length height = 0;
  std::int64_t copies = 1;
  bool may_turn = true; // false when a pattern direction or grain fixes it
};

// One size of sheet (or offcut in hand). Price in any integer money unit; an offcut costs 0.
struct SheetType {
  std::string id;
  Length width = 0;
  Length height = 0;
  std::int64_t price = 1;
  std::optional<std::int64_t> limit; // how many there are; absent: as many as needed
  bool pieces_may_turn = true;       // false: directed stock, no piece is turned on it
  // So many are had at once: for Objective::LeastHandling the rest of an opened pack is free.
  std::int64_t pack = 1;
};

// Edges of every sheet that are cut away before anything else (0: the edge is good).
struct Trim {
  Length left = 0, right = 0, bottom = 0, top = 0;
};

struct Rules {
  Length blade = 0; // width lost at every cut
  Trim trim;
  // No cut lies nearer than this to either edge of the part it cuts (a trimmer cannot hold less).
  Length smallest_strip = 0;
  // How many cutting directions in turn once the edges are trimmed, trimming of pieces included;
  // 0: free.
  int stages = 0;
};

// What is best among plans. Copies beyond those wanted are never placed.
enum class Objective {
  // Fewest sheets (or least cost); then the largest offcut in one piece; then few patterns and few
  // different fence settings.
  FewestSheets,
  // Fewest packs of sheets, then least work for a person: the fewest settings of the fence that are
  // found, a sheet beyond the fewest counted as one; then few cuts, then the largest offcut in one
  // piece. For few pieces that one size of sheet takes, else as FewestSheets.
  LeastHandling,
  // Fewest sheets (or least cost) and no further wish, for who asks how many it takes and cuts
  // nothing by the plan: as many as FewestSheets, found in a fraction of the time.
  SheetCount,
};

struct Job {
  std::vector<PieceType> pieces;
  std::vector<SheetType> sheets;
  Rules rules;
  Objective objective = Objective::FewestSheets;
};

constexpr std::int64_t most_copies = 1'000'000'000;
constexpr std::int64_t highest_price = 1'000'000'000'000;

struct Progress {
  double seconds = 0;
  std::int64_t best_cost = -1; // of the best plan so far, -1: none yet
  std::int64_t bound_cost = 0;
  std::int64_t best_sheets = 0;
  std::int64_t bound_sheets = 0; // 0 where sheets differ in price
  std::string_view subject;      // Effort::subject
  const char* doing = "";        // a step of the search by its name in cut.md
};

// How long to try. `work` counts the planner's own steps, about a thousand million a second on a
// machine of 2020, so that a plan that ends by it is the same on every machine and under any load;
// `seconds` is a brake far away. A plan that the brake or the caller ended says so
// (Plan::stopped).
struct Effort {
  double seconds = 300;
  std::int64_t work = 4'000'000'000;
  std::function<double()> clock; // seconds since any moment; empty: the machine's steady clock
  std::stop_token stop;
  std::function<void(const Progress&)> progress;
  std::string subject; // handed to `progress`: what is being planned
};

// Upright: the cut runs from bottom to top and parts left from right. Level: parts below from
// above.
enum class Direction { Upright, Level };

enum class PartKind {
  Cut,      // is cut once more; `first` lies left of (below) the blade, `second` right (above)
  Piece,    // finished
  Leftover, // not used
};

// A rectangle of the sheet. x to the right and y upwards from the sheet's lower left corner.
struct Part {
  PartKind kind = PartKind::Leftover;
  Length x = 0, y = 0, width = 0, height = 0;
  // kind Cut:
  Direction direction = Direction::Upright;
  Length position = 0; // from the part's left (lower) edge to the near side of the blade
  int first = -1;      // index into Pattern::parts
  int second = -1;     // -1: the blade took all the rest
  // kind Piece:
  int piece = -1; // index into Job::pieces
  bool turned = false;
};

// One way of cutting a sheet. parts[0] is the whole sheet, margins included; children follow
// parents.
struct Pattern {
  std::int64_t count = 0; // sheets cut this way
  int sheet = -1;         // index into Job::sheets
  std::vector<Part> parts;
};

enum class FindingKind {
  PieceFitsNoSheet, // piece names it; needs_* is the smallest sheet that would do
  TooFewSheets,     // limits leave pieces uncut; missing = sheets of `sheet` that would be enough
  RulesForbid,      // piece fits, but no pattern that keeps the rules yields it
  BadNumber,        // a size, count or price out of range
};

struct JobFault {
  FindingKind kind = FindingKind::BadNumber;
  int piece = -1;
  int sheet = -1;
  Length needs_width = 0, needs_height = 0;
  std::int64_t missing = 0;
  enum class Number { Size, Copies, Price, Limit, Margin, Stages };
  Number number = Number::Size; // which one, for BadNumber
};

struct Statistics {
  double seconds = 0;
  std::int64_t work = 0;
  double relaxation = 0; // value of the linear relaxation, when it was solved
  int pricings = 0;
  int exact_pricings = 0;
  int columns = 0;
  int dives = 0;
  int programmes = 0;
  std::int64_t enumerated = 0;
  std::int64_t moves = 0; // of the local search
};

// What ended the search. Time and Caller are told even where the plan is proven: its patterns
// might have become fewer, and another run may end elsewhere.
enum class StoppedBy { Nothing, Work, Time, Caller };

struct Plan {
  std::vector<Pattern> patterns; // most sheets first; empty when findings forbid a plan
  std::int64_t sheets = 0;
  std::int64_t cost = 0;
  // No straight-cut plan that keeps the rules costs (uses) less. bound_sheets only where every
  // sheet has the same price, else 0.
  std::int64_t bound_cost = 0;
  std::int64_t bound_sheets = 0;
  bool proven = false; // the plan meets the bound
  StoppedBy stopped = StoppedBy::Nothing;
  std::vector<JobFault> findings;
  Statistics statistics;
};

// The best plan that the effort finds, by the job's objective.
Plan plan(const Job& job, const Effort& effort = {});

// The largest leftover in one piece over all patterns: its area, 0 when none.
Length largest_offcut(const Plan& plan);

// How often a person sets the fence for a pattern: strips first, side by side from the widest,
// then these in the other direction, and so on; parts that are cut up alike go under the blade
// together.
int work_settings(const Pattern& pattern);

} // namespace leafwright::cut
