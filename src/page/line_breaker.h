#pragma once

#include "measure/length.h"

#include <cstddef>
#include <span>
#include <vector>

// Breaks a paragraph into lines so that the sum of all lines' costs is the least possible, after
// Knuth and Plass, "Breaking paragraphs into lines" (Software: Practice and Experience 11, 1981).
// Knows widths only; letters are the business of paragraph.h.

namespace leafwright::page {

// What is never divided, with the space that follows it and what may happen there.
struct LinePiece {
  enum class After { Stay, Break, Hyphen, Must };
  Length width;
  Length space; // after it; gone at the end of a line
  After after = After::Stay;
  Length hyphen;          // added to a line that ends here (After::Hyphen)
  Length next_correction; // added to a line that begins behind it: a word's tail is kerned anew
};

struct Measure {
  Length width;
  Length first_indent;
  bool justified = false;
  double stretch = 0.6; // justified: by how much of its width a space may grow ...
  double shrink = 0.18; // ... or shrink; more growth is possible, at a price
  Length shortest_last; // a last line below this is a lonely one
};

struct Line {
  std::size_t first = 0, end = 0; // pieces
  Length natural;                 // width without justification
  Length spaces;                  // sum of the spaces within
  bool hyphenated = false;
  bool last = false; // of the paragraph, or before a forced break
  bool overfull = false;
};

// Costs are pure numbers; a line 20 % short costs 40.
inline constexpr double overfull_cost = 1e7;
double line_cost(const Line& line, const Measure& measure, bool previous_hyphenated);
// The line made of pieces [first, end).
Line make_line(std::span<const LinePiece> pieces, std::size_t first, std::size_t end,
               const Measure& measure);
// The least costly set of lines; a line is overfull only when one undivided piece is too wide.
std::vector<Line> break_lines(std::span<const LinePiece> pieces, const Measure& measure);

} // namespace leafwright::page
