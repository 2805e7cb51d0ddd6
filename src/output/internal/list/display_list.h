#pragma once

#include "guide/figure/drawing.h"
#include "measure/length.h"
#include "text/fonts.h"

#include <cstdint>
#include <map>
#include <utility>
#include <vector>

namespace leafwright {

// Whether a link leads to an address outside rather than to an anchor of the document.
inline bool is_address(const Link& link) {
  return link.target.find("://") != std::string::npos || link.target.starts_with("mailto:");
}

// The dashes as every pen takes them: none (a solid line) when one is negative or all are nought.
std::vector<Length> usable_dash(const std::vector<Length>& dash);

// An opacity in whole thousandths from 0 to 1000, so that all pens round alike; what is not a
// number is opaque.
int opacity_thousandths(double opacity);

// Text as outlines, for the pens that draw it so.

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

// Cosine and sine of an angle, exact at whole quarters, where people turn things most.
struct Turn {
  double cosine = 1, sine = 0;
  bool level() const { return sine == 0 && cosine == 1; }
};
Turn turn_of(Angle angle);

} // namespace leafwright
