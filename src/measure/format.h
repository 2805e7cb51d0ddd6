#pragma once

#include "measure/date.h"
#include "measure/length.h"
#include "measure/money.h"
#include "measure/shape.h"

#include <fmt/format.h>

#include <string>
#include <string_view>

// fmt::format for the measures, so that findings print alike. A project's own wish how lengths are
// printed (see print_length.h) is not known here: what stands in a document uses length_text.

namespace leafwright {

// Nothing is rounded: "4 1/4 in" for a multiple of 1/64 in up to 100 m, "107.123 mm" for the rest.
std::string exact_text(Length a);
std::string exact_text(Size a); // "4 1/4 × 5 1/2 in", in mm when either side needs it

} // namespace leafwright

namespace leafwright::detail {

struct PrintedAsText : fmt::formatter<std::string_view> {};

} // namespace leafwright::detail

// Width and alignment work as for text: fmt::format("{:>12}", length).
template <>
struct fmt::formatter<leafwright::Length> : leafwright::detail::PrintedAsText {
  template <class Context>
  auto format(leafwright::Length a, Context& context) const {
    return PrintedAsText::format(leafwright::exact_text(a), context);
  }
};
template <>
struct fmt::formatter<leafwright::Size> : leafwright::detail::PrintedAsText {
  template <class Context>
  auto format(leafwright::Size a, Context& context) const {
    return PrintedAsText::format(leafwright::exact_text(a), context);
  }
};
template <>
struct fmt::formatter<leafwright::Money> : leafwright::detail::PrintedAsText {
  template <class Context>
  auto format(const leafwright::Money& money, Context& context) const {
    return PrintedAsText::format(leafwright::money_text(money), context);
  }
};
template <>
struct fmt::formatter<leafwright::Date> : leafwright::detail::PrintedAsText {
  template <class Context>
  auto format(leafwright::Date date, Context& context) const {
    return PrintedAsText::format(leafwright::date_text(date), context);
  }
};
