#include "measure/format.h"

#include "measure/print_length.h"

namespace leafwright {
namespace {

Printing exact_printing(bool inch) {
  Printing how;
  how.unit = inch ? Unit::Inch : Unit::Millimetre;
  how.step = inch ? inches(0, 1, 64) : Length{1};
  return how;
}

bool in_sixty_fourths(Length a) { return prints_exactly(a, inches(0, 1, 64)); }

} // namespace

std::string exact_text(Length a) { return length_text(a, exact_printing(in_sixty_fourths(a))); }

std::string exact_text(Size a) {
  return size_text(a, exact_printing(in_sixty_fourths(a.width) && in_sixty_fourths(a.height)));
}

} // namespace leafwright
