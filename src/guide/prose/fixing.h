#pragma once

#include "guide/prose/pieces.h"

namespace leafwright::guide {

// How a piece comes onto what carries it: "Tape the dotted mat (C), 4 × 5 1/4 in, to the front,
// centred: 1/8 in of kraft shows on every side." `named`: it has been named in this step already.
Prose fixing(const Telling& telling, const Together& pieces, bool named, bool sized);

// The adhesive as a thing to have at hand: "tape", "four foam squares"; empty when nothing sticks.
std::string adhesive_words(const Telling& telling, const Together& pieces);

// Whether what carries the piece is seen all round it, nothing else lying between.
bool surface_shows(const Card& card, int piece);

} // namespace leafwright::guide
