#pragma once

#include "guide/prose/preparing.h"

namespace leafwright::guide {

// What the author's own words say of the making of a piece: those in place of its step, and those
// of the card's free steps that name it. Only what is written counts, not the names of pieces.
Told told_of(const Telling& telling, int piece, const AuthorStep& own);

} // namespace leafwright::guide
