#pragma once

#include "model/supply.h"

namespace leafwright::supply {

// The place of a kind of item within its group in lists of supplies: ribbon before embellishments;
// stamps, dies, inks; adhesives before tools.
int rank_of(ItemKind kind);

} // namespace leafwright::supply
