#pragma once

#include "guide/figure/drawing.h"
#include "text/fonts.h"

#include <cstdint>
#include <map>
#include <utility>
#include <vector>

// Text as outlines, for the pens that draw it so.

namespace leafwright {

struct PlacedGlyph {
  std::uint32_t id = 0;
  double x = 0, y = 0; // its origin in mm from the run's baseline point, before turning, y down
};
// Where shaping and justification put each glyph of a run. Empty when the face does not exist.
std::vector<PlacedGlyph> placed_glyphs(const text::Fonts& fonts, const TextRun& run);

// Outlines in which one font unit is a micrometre, each traced once.
class GlyphOutlines {
 public:
  explicit GlyphOutlines(const text::Fonts& fonts) : fonts_(fonts) {}
  const Path& of(int face, std::uint32_t glyph);
  // What a font unit of this run measures in mm, over the micrometre it has in the outline.
  double scale(const text::Shaped& shaped) const;

 private:
  const text::Fonts& fonts_;
  std::map<std::pair<int, std::uint32_t>, Path> outlines_;
};

} // namespace leafwright
