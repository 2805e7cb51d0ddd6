#pragma once

#include "measure/length.h"

#include <fmt/format.h>

#include <cstddef>
#include <string>
#include <string_view>

// Lengths and sizes as text: exactly, for findings and fmt::format, and at the step
// and in the unit that a project prints by.
//
//   length_text(inches(4, 1, 4), Printing{});        // "4 1/4 in"
//   fmt::format("{}", inches(4, 1, 4));              // the same, whatever the project says

namespace leafwright {

// Nothing is rounded: "4 1/4 in" for a multiple of 1/64 in up to 100 m, "107.123 mm" for the rest.
std::string exact_text(Length a);
std::string exact_text(Size a); // "4 1/4 × 5 1/2 in", in mm when either side needs it

} // namespace leafwright

// Width and alignment work as for text: fmt::format("{:>12}", length).
template <>
struct fmt::formatter<leafwright::Length> : fmt::formatter<std::string_view> {
  template <class Context>
  auto format(leafwright::Length a, Context& context) const {
    return fmt::formatter<std::string_view>::format(leafwright::exact_text(a), context);
  }
};
template <>
struct fmt::formatter<leafwright::Size> : fmt::formatter<std::string_view> {
  template <class Context>
  auto format(leafwright::Size a, Context& context) const {
    return fmt::formatter<std::string_view>::format(leafwright::exact_text(a), context);
  }
};

namespace leafwright {

// How a project prints lengths. `step` is the mark that a maker can read off a ruler: 1/16 in
// (1/8, 1/32, 1/64) or 1 mm (0.5 mm, 0.1 mm).
struct Printing {
  Unit unit = Unit::Inch;
  Length step = inches(0, 1, 16);
  // For the unit beside it. One that is no mark of that unit's ruler (a part of an inch; a part or
  // a multiple of 1 mm) gives way to 1/16 in or 0.5 mm.
  Length other_step = millimetres(1) / 2;
  bool print_other = false; // whether lists give it at all
};

// The multiple of `step` nearest to `a`; halves go away from zero.
Length nearest(Length a, Length step);
// Whether `a` is printed exactly at that step.
bool prints_exactly(Length a, Length step);

// "4 1/4" / "108": the number alone, fractions in lowest terms with a plain slash (the page engine
// sets them as true fractions); "≈" in front when rounding was needed. "0" for nothing.
std::string number_text(Length a, const Printing& how);
// "4 1/4 in" / "108 mm". A no-break space (U+00A0) stands between the parts so that a size never
// breaks over two lines.
std::string length_text(Length a, const Printing& how);
// "4 1/4 × 5 1/2 in", "3 1/4 in square" when both sides print alike and `say_square`.
std::string size_text(Size a, const Printing& how, bool say_square = false);
// The same in the project's other unit, each side with ≈ when it is rounded.
std::string other_size_text(Size a, const Printing& how);

// Lengths in findings: as the project prints them when that is exact, else without any rounding, so
// that two numbers that differ never look alike.

std::string unrounded(Length length, const Printing& how);
std::string unrounded(Size size, const Printing& how);

} // namespace leafwright
