#pragma once

#include "measure/print_length.h"

// The numbers that the rules compare with, in one place.

namespace leafwright::fit {

// A length as makers of the project's unit know it.
constexpr Length either(const Printing& how, Length inch, Length metric) {
  return how.unit == Unit::Inch ? inch : metric;
}

// What shows of a mat's carrier on each side, and the narrowest rim round a window that does not
// tear: 1/8 in or 3 mm (common practice).
constexpr Length usual_reveal(const Printing& how) {
  return either(how, inches(0, 1, 8), millimetres(3));
}
// Opposite reveals that differ by no more than this look like a slip.
constexpr Length slip(const Printing& how) {
  return either(how, inches(0, 1, 16), micrometres(1500));
}
// A card is 1/8 to 1/4 in (3 to 6 mm) smaller than its envelope (common practice).
constexpr Length envelope_clearance(const Printing& how) {
  return either(how, inches(0, 1, 8), millimetres(3));
}
// Two scores, or a score and a fold, nearer than this are the same to a maker.
inline constexpr Length same_line = micrometres(400);
// Sizes that differ by less are the same: halves of odd nanometres.
inline constexpr Length same_size = micrometres(1);

} // namespace leafwright::fit
