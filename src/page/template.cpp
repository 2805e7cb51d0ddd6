#include "page/template.h"

#include <cmath>

namespace leafwright::page {

Colour mixed(const Tint& tint, Colour accent) {
  const Colour base = tint.accent ? accent : tint.fixed;
  const auto mix = [&](std::uint8_t channel) {
    const double value = 255.0 - tint.share * (255.0 - static_cast<double>(channel));
    return static_cast<std::uint8_t>(std::lround(value));
  };
  return {mix(base.red), mix(base.green), mix(base.blue)};
}

const TextStyle& Template::style(std::string_view wanted) const {
  static const TextStyle fallback;
  auto found = styles.find(wanted);
  if (found == styles.end()) found = styles.find("body");
  return found == styles.end() ? fallback : found->second;
}

Tint Template::colour(std::string_view wanted) const {
  const auto found = colours.find(wanted);
  if (found != colours.end()) return found->second;
  if (wanted == "accent") return {true, {}, 1.0};
  if (wanted == "paper") return {false, {255, 255, 255}, 1.0};
  return {};
}

} // namespace leafwright::page
