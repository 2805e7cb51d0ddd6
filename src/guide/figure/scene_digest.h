#pragma once

#include "guide/figure/scene.h"

#include <compare>
#include <cstdint>

namespace leafwright::figure {

// Tells scenes apart by what they hold: two of one digest give one drawing, in the same room, at
// the same scale and with the same fonts. 128 bits, so that two different ones never meet by
// chance.
struct SceneDigest {
  std::uint64_t high = 0, low = 0;
  friend auto operator<=>(const SceneDigest&, const SceneDigest&) = default;
};
SceneDigest digest_of(const Scene& scene, const Look& look);

} // namespace leafwright::figure
