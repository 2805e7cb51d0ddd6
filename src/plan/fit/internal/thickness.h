#pragma once

#include "model/card.h"
#include "model/project.h"

#include <string>
#include <vector>

namespace leafwright::fit {

// How thick the finished, closed card is at its thickest point.

// One thing that adds to the thickness there, from the back to the front.
struct Layer {
  std::string words; // "kraft base, 2 leaves", "foam under the label"
  Length thickness{};
};

struct Thickness {
  Length most{};
  Point at;                  // where, in the front view of the closed card
  std::vector<Layer> layers; // they add up to `most`
  std::vector<ItemRef>
      unknown;         // stocks and adhesives whose thickness is not given: counted as nothing
  bool uneven = false; // raised, hard or ribbon parts make it thicker there than at its edges
  bool rigid = false;  // holds something hard
};

// Paper calipers, adhesive layers, embellishments and ribbon are summed where they overlap in plan,
// over all leaves of the closed card, bounding boxes for shapes. The envelope is not counted.
Thickness thickness_of(const Project& project, const Card& card);
// Both sides of the envelope added, when the card has one of known grammage.
Length thickness_in_envelope(const Project& project, const Card& card);

} // namespace leafwright::fit
