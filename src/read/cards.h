#pragma once

#include "read/resolver.h"

namespace leafwright::reading {

// Fills the cards of the project: pieces, ribbons, embellishments, stamping, steps, in order.
void build_cards(Resolver& resolver);

} // namespace leafwright::reading
