#pragma once

#include "measure/length.h"

#include <cstdint>
#include <hb.h>

namespace leafwright::text {

// A glyph's outline, its origin at (0, 0) and y down.
Path traced(hb_font_t* font, std::uint32_t glyph, Length size, int units_per_em);

} // namespace leafwright::text
