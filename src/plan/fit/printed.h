#pragma once

#include "measure/shape.h"

#include <string>

namespace leafwright::fit {

// A thickness to a tenth of a millimetre and a hundredth of an inch, rounded up: "5.2 mm (0.21
// in)".
std::string thickness_text(Length thickness);

// The least multiple of `step` that is not smaller, and the largest that is not larger.
Length up_to_step(Length length, Length step);
Length down_to_step(Length length, Length step);
Size up_to_step(Size size, Length step);

} // namespace leafwright::fit
