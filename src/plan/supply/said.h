#pragma once

#include "measure/format.h"
#include "measure/print_length.h"

#include <string>

// Lengths in findings: as the project prints them when that is exact, else without any rounding, so
// that two numbers that differ never look alike.

namespace leafwright::supply {

std::string said(Length length, const Printing& how);
std::string said(Size size, const Printing& how);

} // namespace leafwright::supply
