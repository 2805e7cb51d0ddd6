#pragma once

#include "model/project.h"

#include <string>
#include <vector>

namespace leafwright::guide {

// One use of ink on a card.
struct InkUse {
  int card = -1;
  int set = -1, image = -1;               // -1: no stamp, an edge or a sponged ground
  std::string on;                         // "tree panel", "envelope"
  const Impression* impression = nullptr; // or an inked edge
  std::vector<int> inks;
};
// In the order of the cards and of their making.
std::vector<InkUse> ink_uses(const Project& project);

} // namespace leafwright::guide
