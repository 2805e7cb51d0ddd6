#include "output/list/dash.h"

#include <algorithm>
#include <cmath>

namespace leafwright {

std::vector<Length> usable_dash(const std::vector<Length>& dash) {
  const bool negative = std::any_of(dash.begin(), dash.end(), [](Length a) { return a.nm < 0; });
  const bool any = std::any_of(dash.begin(), dash.end(), [](Length a) { return a.nm > 0; });
  return negative || !any ? std::vector<Length>{} : dash;
}

int opacity_thousandths(double opacity) {
  const double sound = std::isfinite(opacity) ? std::clamp(opacity, 0.0, 1.0) : 1.0;
  return static_cast<int>(std::lround(sound * 1000.0));
}

} // namespace leafwright
