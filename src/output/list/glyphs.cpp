#include "output/list/glyphs.h"

namespace leafwright {

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

} // namespace leafwright
