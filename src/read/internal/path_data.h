#pragma once

#include "basics/parsed.h"
#include "measure/length.h"

#include <string_view>

namespace leafwright::reading {

// SVG 1.1 path data (8.3): M L H V C S Q T A Z, absolute and relative. A number counts `per_x`
// nanometres across and `per_y` down. Quadratic curves and arcs become cubic ones; an arc is cut
// into quarters or less, which keeps it within 0.03 % of its radius.
Parsed<Path> parse_path(std::string_view text, double per_x, double per_y);

} // namespace leafwright::reading
