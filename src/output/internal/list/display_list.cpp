#include "output/internal/list/display_list.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace leafwright {

std::vector<Length> usable_dash(const std::vector<Length>& dash) {
  const bool negative = std::any_of(dash.begin(), dash.end(), [](Length a) { return a.nm < 0; });
  const bool any = std::any_of(dash.begin(), dash.end(), [](Length a) { return a.nm > 0; });
  return negative || !any ? std::vector<Length>{} : dash;
}

int opacity_thousandths(double opacity) {
  const double sound = std::isfinite(opacity) ? std::clamp(opacity, 0.0, 1.0) : 1.0;
  return static_cast<int>(std::lround(sound * 1000.0));
}

std::vector<PlacedGlyph> placed_glyphs(const text::Fonts& fonts, const TextRun& run) {
  const text::Shaped& shaped = run.shaped;
  std::vector<PlacedGlyph> placed;
  if (shaped.face < 0 || shaped.face >= fonts.count()) return placed;
  placed.reserve(shaped.glyphs.size());
  const double unit = in_mm(shaped.size) / fonts.units_per_em(shaped.face);
  double pen = 0;
  for (const text::Glyph& glyph : shaped.glyphs) {
    placed.push_back({glyph.id, pen + glyph.x_offset * unit, -glyph.y_offset * unit});
    pen += glyph.advance * unit;
    if (glyph.cluster < shaped.text.size() && shaped.text[glyph.cluster] == ' ')
      pen += in_mm(run.word_space);
  }
  return placed;
}

const Path& GlyphOutlines::of(int face, std::uint32_t glyph) {
  const auto [place, is_new] = outlines_.try_emplace({face, glyph});
  if (is_new) place->second = fonts_.outline(face, glyph, micrometres(fonts_.units_per_em(face)));
  return place->second;
}

double GlyphOutlines::scale(const text::Shaped& shaped) const {
  return in_mm(shaped.size) * 1000.0 / fonts_.units_per_em(shaped.face);
}

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
