#pragma once

#include "page/paragraph.h"

namespace leafwright::page {

// Draws a thing that stands in a line of text (piece letter, ink chip, tick box) with its left edge
// at `at.x` and the text's baseline at `at.y`.
void draw_thing(const Atom& atom, Point at, const TextStyle& style, Frame& into, Context& context);

// A square in an ink's colour with the ink's own mark, so that inks are told apart without colour.
void draw_chip(Rect box, Colour colour, Ink::Mark mark, Colour edge, Frame& into);

} // namespace leafwright::page
