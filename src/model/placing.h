#pragma once

#include "measure/length.h"
#include "model/card.h"

#include <cstddef>
#include <optional>
#include <vector>

// How a place is measured with a ruler: from which edge, and to what of the thing. Words and
// drawings both ask here, so that the number that is read is the number that is drawn.
//
// A thing that lies straight is measured to its own edges; one that lies at a slant to its middle;
// a ribbon to its middle line. Of two opposite edges the author's is taken, and of what was placed
// by its middle the nearer, or the one that a coarser ruler finds.

namespace leafwright {

enum class Edge { Left, Top, Right, Bottom };

// Distances from the edges of what carries it to the measured part of a thing; negative when it
// stands over.
struct Gaps {
  Length left, top, right, bottom;
  bool of_middle = false; // measured to the middle of the thing, which lies at a slant
};
Gaps gaps_in(Size carrier, Rect part);
Length gap_at(const Gaps& gaps, Edge edge);

// Alike to the eye: within 0.05 mm.
bool alike(Length a, Length b);

bool at_a_slant(Angle turned); // by less or more than quarter turns
// The box of the thing after it is turned about its middle; at a slant, the middle alone.
Rect measured_part(Rect thing, Angle turned);
Gaps measured_gaps(Size carrier, Rect thing, Angle turned);

// The edge that the distance is measured from, across (left or right) and down (top or bottom).
Edge measured_across(const Gaps& gaps, const Position& position);
Edge measured_down(const Gaps& gaps, const Position& position);

// Several alike things, measured as one.
struct Arrangement {
  enum class Kind { One, Row, Column, Grid, Scattered };
  Kind kind = Kind::One;
  std::size_t columns = 0, rows = 0;
  Rect part; // round the measured parts of all
  bool of_middle = false;
  std::optional<Length>
      apart; // between neighbours of a row or column, where it is one and the same
  std::optional<Rect> first, second; // the neighbours it is measured between
};
Arrangement arrangement_of(const std::vector<Point>& places, Size size, Angle turned);
// Scattered things are placed by eye, from the drawing.
inline bool is_measured(const Arrangement& arrangement) {
  return arrangement.kind != Arrangement::Kind::Scattered;
}

} // namespace leafwright
