#include "plan/supply/said.h"

namespace leafwright::supply {

std::string said(Length length, const Printing& how) {
  if (prints_exactly(length, how.step)) return length_text(length, how);
  return exact_text(length);
}

std::string said(Size size, const Printing& how) {
  if (prints_exactly(size.width, how.step) && prints_exactly(size.height, how.step))
    return size_text(size, how);
  return exact_text(size);
}

} // namespace leafwright::supply
