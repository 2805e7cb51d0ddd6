#pragma once

#include "model/project.h"
#include "plan/fit/internal/cover.h"

#include <string>
#include <vector>

// The closed card as a pile of flat slabs, all seen from the front.

namespace leafwright::fit {

struct Slab {
  std::string words; // "leaf 1 of the base", "foam under the label"
  Rect box;          // on the closed card, origin at the top left corner of its front
  Length thickness{};
  std::vector<Rect> openings; // windows within it, on the closed card, apart from each other
  bool raised = false;        // foam, ribbon or something hard
  bool loops = false; // a bow or a knot: bends, so that it is thick but no wider than the card
};

struct LayerStack {
  std::vector<Slab> slabs;      // from the back of the closed card to its front
  std::vector<ItemRef> unknown; // no thickness given, counted as nothing; each once
  bool hard = false;
};

// Every leaf of the base, every piece with its adhesive, ribbons and embellishments. Of a window
// only what surely lies inside it counts as open.
LayerStack pile_of(const Project& project, const Card& card);

// Loops count only where they lie over the rest.
std::vector<Weighted> weights_of(const LayerStack& pile);

} // namespace leafwright::fit
