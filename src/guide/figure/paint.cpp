#include "guide/figure/paint.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace leafwright::figure {

namespace {

std::uint8_t mixed_part(std::uint8_t from, std::uint8_t to, double share) {
  const double value = from + (static_cast<double>(to) - from) * share;
  return static_cast<std::uint8_t>(std::lround(std::clamp(value, 0.0, 255.0)));
}

double linear(std::uint8_t part) {
  const double v = part / 255.0;
  return v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4);
}

} // namespace

Colour mixed(Colour from, Colour to, double share) {
  return {mixed_part(from.red, to.red, share), mixed_part(from.green, to.green, share),
          mixed_part(from.blue, to.blue, share)};
}

double luminance(Colour colour) {
  return 0.2126 * linear(colour.red) + 0.7152 * linear(colour.green) + 0.0722 * linear(colour.blue);
}

Colour edge_colour(Colour paper) {
  const Colour dark{30, 26, 20};
  return luminance(paper) > 0.12 ? mixed(paper, dark, 0.52) : mixed(paper, dark, 0.75);
}

void fill(Items& into, Path path, Colour colour, double opacity) {
  into.emplace_back(SceneFill{std::move(path), colour, opacity});
}

void real_stroke(Items& into, Path path, Colour colour, Length width, double opacity,
                 std::vector<Length> dash, Stroke::Cap cap) {
  into.emplace_back(SceneStroke{std::move(path), colour, width, true, std::move(dash), cap,
                                Stroke::Join::Round, opacity});
}

void drawn_stroke(Items& into, Path path, Colour colour, Length width, double opacity,
                  std::vector<Length> dash) {
  into.emplace_back(SceneStroke{std::move(path), colour, width, false, std::move(dash),
                                Stroke::Cap::Butt, Stroke::Join::Miter, opacity});
}

void soft_shadow(Items& into, const Path& path, int lift) {
  struct Step {
    double x, y, opacity; // millimetres
  };
  constexpr std::array<Step, 3> steps{{{1.10, 1.35, 0.05}, {0.62, 0.78, 0.08}, {0.26, 0.34, 0.13}}};
  const Colour dark{46, 36, 24};
  const double deep = 1.0 + 1.15 * std::min(lift, 3);
  for (const Step& step : steps)
    fill(into, moved(path, {from_nm(step.x * deep * 1e6), from_nm(step.y * deep * 1e6)}), dark,
         step.opacity);
}

} // namespace leafwright::figure
