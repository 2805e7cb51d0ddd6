#pragma once

#include "measure/parse_length.h"
#include "measure/shape.h"

#include <string>

namespace leafwright {

// "93.5 in²" / "603 cm²", for a metric project: about three figures, with ≈ in front when that is
// not exact. The parts are held together by a no-break space.
std::string area_text(Area area, Unit unit);

// "7.5°", "−90°": exact, clockwise positive.
std::string angle_text(Angle angle);

} // namespace leafwright
