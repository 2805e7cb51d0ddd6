#pragma once

#include "page/laid.h"

#include <optional>

namespace leafwright::copies {

// Where the baseline of a line of that size may stand at the foot of a page: below everything
// printed there, above the strip that printers leave white. Nothing when there is no room.
std::optional<Length> foot_baseline(const page::LaidPage& page, Length size);

} // namespace leafwright::copies
