#pragma once

#include "guide/figure/paint.h"

// What a paper looks like beside its colour and pattern, and what techniques leave on it. The
// caller clips to the outline.

namespace leafwright::figure {

void draw_surface(Items& into, const Stock& stock, const Frame& frame, Size size);

// `outline` is the piece's, placed.
void draw_finish(Items& into, const Project& project, const Piece& piece, const Finish& finish,
                 const Frame& frame, const Path& outline, const Stock& stock);

// A dashed line that far inside the edge of a shape.
void draw_stitches(Items& into, const Shape& shape, Size size, const Frame& frame, Point at,
                   Colour paper, Length inset);

} // namespace leafwright::figure
