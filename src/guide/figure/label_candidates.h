#pragma once

#include "guide/figure/place_labels.h"
#include "guide/figure/scene.h"

#include <optional>

// From the wishes of a scene to candidate places, at one scale.

namespace leafwright::figure {

// The printed sizes of lettering, from the look and the fonts. Millimetres.
struct Lettering {
  const text::Fonts* fonts = nullptr;
  Length size, badge;
  double em = 0;      // font size
  double above = 0;   // from the baseline to the top of figures and capitals
  double below = 0;   // to the bottom of descenders
  double leading = 0; // from baseline to baseline
};
Lettering lettering(const Look& look, const text::Fonts& fonts);
// The shaped words of a line of a label: the first line of several is bold.
text::Shaped shaped(const Lettering& lettering, const std::string& words, bool bold);
double width_mm(const text::Shaped& words);

// The ground on which candidates stand: the scene at a scale, its (0, 0) at the origin.
struct Ground {
  double scale = 1;
  Box object;                  // around everything drawn
  std::vector<Box> solid;      // labels outside keep off these
  std::vector<Box> keep_clear; // labels inside keep off these
  std::optional<Box> room;     // nothing may leave this
  bool thrifty = false;        // labels with choice enough inside are not offered places outside
};
Ground ground_of(const Scene& scene, double scale);

// A label before its place is chosen.
struct Wish {
  std::vector<Candidate> candidates;
  int rank = 0;
  enum class Kind { Dimension, Badge, Label } kind = Kind::Dimension;
  std::size_t index = 0; // in the scene's list of that kind
};
// All labels in order of importance: badges, then by rank.
std::vector<Wish> wishes(const Scene& scene, const Ground& ground, const Lettering& lettering);

} // namespace leafwright::figure
