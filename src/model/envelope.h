#pragma once

#include "model/project.h"

namespace leafwright {

// A card's envelope as it lies to be stamped, lined and addressed: one of a named size with its
// longer side across (as it was read), one of a measure as that was written. Whoever places
// something on an envelope, draws it or checks it asks here. Nothing known is 0 x 0.
Size envelope_as_it_lies(const Project& project, const Card& card);

} // namespace leafwright
