#pragma once

#include "model/card.h"

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

} // namespace leafwright::fit
