#pragma once

#include "language/english.h"
#include "measure/amounts/amounts.h"

#include <string>

// Weights of parcels, as a carrier's table has them.

namespace leafwright::words {

// "525 g"; for American buyers what the post there counts comes first, "1 lb 3 oz (525 g)". A part
// of a gram or an ounce counts as a whole one. Avoirdupois: 16 oz to the pound of 453.592 37 g.
std::string parcel_weight(English english, Mass mass);

} // namespace leafwright::words
