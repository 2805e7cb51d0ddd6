#pragma once

#include "read/context.h"
#include "read/document.h"

namespace leafwright::reading {

// Fees, postage and outlays; postage sorted by mass.
void read_selling(Context& context, const Element& selling);

} // namespace leafwright::reading
