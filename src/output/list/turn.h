#pragma once

#include "measure/shape.h"

namespace leafwright {

// Cosine and sine of an angle, exact at whole quarters, where people turn things most.
struct Turn {
  double cosine = 1, sine = 0;
  bool level() const { return sine == 0 && cosine == 1; }
};
Turn turn_of(Angle angle);

} // namespace leafwright
