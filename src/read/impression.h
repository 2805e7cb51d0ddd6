#pragma once

#include "model/card.h"
#include "read/resolver.h"

namespace leafwright::reading {

// A <stamp> on a carrier of the card.
Impression impression_of(Resolver& resolver, const Element& element, int card, Draft::On on);

// Top left corners of `times` things of one size in a row, a column or a grid: spaces alike between
// them and at both ends, or edge to edge between `margin`s when a margin is said.
std::vector<Length> spread(Length whole, Length own, int count, std::optional<Length> margin);
// Points that look scattered and are the same each time: a low-discrepancy sequence in the room
// that is left.
std::vector<Point> scattered(Size whole, Size own, int count);

} // namespace leafwright::reading
