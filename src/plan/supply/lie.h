#pragma once

#include "model/project.h"

namespace leafwright::supply {

// How a piece may lie on a sheet of its stock.
enum class Lie {
  Upright, // as it stands on the card
  Turned,  // by a quarter turn
  Either,
};

// A pattern with a top wants its pieces upright. Card folds cleanly along the grain and cracks
// across it (common practice), so a scored piece lies with its scores along the grain where that is
// known. Scores in both directions cannot be pleased and bind nothing.
Lie wished_lie(const Stock& stock, const Piece& piece);

// Whether a rectangle fits on one of the stock's sheets when it lies so.
bool fits_a_sheet(const Stock& stock, Size rectangle, Lie lie);

// The wished lie, or Either when only the grain asks for it and no sheet is large enough that way.
Lie lie_of(const Stock& stock, const Piece& piece);

// What is cut with the trimmer: Piece::cut_from, or the piece itself when that is not set.
Size rectangle_of(const Piece& piece);

} // namespace leafwright::supply
