#include "output/html/contrast.h"

#include <algorithm>
#include <cmath>

namespace leafwright::html {
namespace {

double linear(std::uint8_t channel) {
  const double share = channel / 255.0;
  return share <= 0.04045 ? share / 12.92 : std::pow((share + 0.055) / 1.055, 2.4);
}

double luminance(Colour colour) {
  return 0.2126 * linear(colour.red) + 0.7152 * linear(colour.green) + 0.0722 * linear(colour.blue);
}

} // namespace

double contrast_ratio(Colour a, Colour b) {
  const double in_a = luminance(a), in_b = luminance(b);
  return (std::max(in_a, in_b) + 0.05) / (std::min(in_a, in_b) + 0.05);
}

Colour darkened_on(Colour colour, Colour ground) {
  const auto at = [colour](int percent) {
    const auto part = [percent](std::uint8_t channel) {
      return static_cast<std::uint8_t>(channel * percent / 100);
    };
    return Colour{part(colour.red), part(colour.green), part(colour.blue)};
  };
  for (int percent = 100; percent > 0; --percent)
    if (contrast_ratio(at(percent), ground) >= readable) return at(percent);
  return {};
}

} // namespace leafwright::html
