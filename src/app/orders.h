#pragma once

#include "app/prepare.h"

namespace leafwright::app {

// Reads the roster of the project, adds its orders to those of the project and makes parcels of
// all. Only for documents that need them: a tutorial is the same whoever ordered it.
void take_orders(Prepared& prepared);

} // namespace leafwright::app
