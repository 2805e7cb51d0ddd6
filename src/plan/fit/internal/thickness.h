#pragma once

#include "model/card.h"
#include "model/project.h"

#include <string>
#include <vector>

namespace leafwright::fit {

// A leaf of the base and where it comes to lie when the card is closed: a point (x, y) of the
// unfolded base goes to (sign.x * x + by.x, sign.y * y + by.y) on the closed front.
struct Leaf {
  Rect on_base;
  int sign_x = 1, sign_y = 1;
  Point by;
};
// The leaves between the scores, folded flat one onto the other. The leaf that lies behind the
// front view unturned (the inside below a top fold, right of a side fold, between the gates) stays
// put.
std::vector<Leaf> leaves_of(const Form& form, const FormPlan& plan);

Rect folded(const Leaf& leaf, Rect on_base);

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
