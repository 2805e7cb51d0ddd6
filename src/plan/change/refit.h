#pragma once

#include "model/project.h"
#include "plan/supply/lie.h"
#include "plan/supply/sheets.h"

#include <string>
#include <vector>

// Whether a piece that is cut already can be the piece that is wanted now.

namespace leafwright::change {

// A piece as it lies on the table: cut, scored, its openings cut out. Not yet stamped.
struct CutState {
  Size size;
  Shape shape;
  Size blank; // the rectangle that its die or the scissors need; equals size for trimmer pieces
  std::vector<Score> scores;
  std::vector<Window> windows;
  supply::Lie lie = supply::Lie::Either;
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
  int new_scores = 0, new_windows = 0;     // Good, Trim: still to be made
  Loss loss = Loss::None;                  // Lost
  Length narrow{}, low{};                  // TooSmall: what is missing in width and height
};

// Orientation is kept unless both may lie either way. A score or an opening that would stay in
// sight spoils the piece; one that falls into what is cut off does not, and where scores must stay
// in their places, what is cut off is shared between the two edges.
Refit refit(const CutState& have, const CutState& want);

} // namespace leafwright::change
