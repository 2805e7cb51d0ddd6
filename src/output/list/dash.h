#pragma once

#include "measure/length.h"

#include <vector>

namespace leafwright {

// The dashes as every pen takes them: none (a solid line) when one is negative or all are nought.
std::vector<Length> usable_dash(const std::vector<Length>& dash);

// An opacity in whole thousandths from 0 to 1000, so that all pens round alike; what is not a
// number is opaque.
int opacity_thousandths(double opacity);

} // namespace leafwright
