#include "output/list/turn.h"

#include <cmath>
#include <numbers>

namespace leafwright {

Turn turn_of(Angle angle) {
  constexpr std::int64_t full = 360'000'000;
  const std::int64_t within = ((angle.udeg % full) + full) % full;
  switch (within) {
  case 0: return {1, 0};
  case 90'000'000: return {0, 1};
  case 180'000'000: return {-1, 0};
  case 270'000'000: return {0, -1};
  default: break;
  }
  const double radians = static_cast<double>(within) / 180e6 * std::numbers::pi;
  return {std::cos(radians), std::sin(radians)};
}

} // namespace leafwright
