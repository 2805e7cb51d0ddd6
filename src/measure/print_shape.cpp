#include "measure/print_shape.h"

#include "measure/decimal_text.h"

#include <fmt/format.h>

#include <cstdint>

namespace leafwright {
namespace {

constexpr std::int64_t um2_per_in2 = 645'160'000; // 25 400² µm², by definition of the inch
constexpr std::int64_t um2_per_cm2 = 100'000'000;

} // namespace

std::string area_text(Area area, Unit unit) {
  const std::int64_t um2_per_unit = unit == Unit::Inch ? um2_per_in2 : um2_per_cm2;
  const bool negative = area.um2 < 0;
  const std::int64_t size = negative ? -area.um2 : area.um2;
  const std::int64_t whole = size / um2_per_unit;
  const int places = whole >= 100 ? 0 : (whole >= 10 ? 1 : 2);
  std::int64_t um2_per_count = um2_per_unit; // both units divide by 100
  for (int i = 0; i < places; ++i) um2_per_count /= 10;
  const std::int64_t rest = size % um2_per_count;
  const std::int64_t count = size / um2_per_count + (rest >= um2_per_count - rest ? 1 : 0);
  return fmt::format("{}{}{}\u00A0{}", rest == 0 ? "" : "≈", negative ? "−" : "",
                     detail::decimal_text(count, places), unit == Unit::Inch ? "in²" : "cm²");
}

std::string angle_text(Angle angle) {
  const bool negative = angle.udeg < 0;
  return fmt::format("{}{}°", negative ? "−" : "",
                     detail::decimal_text(negative ? -angle.udeg : angle.udeg, 6));
}

} // namespace leafwright
