#pragma once

#include "model/project.h"

#include <cstdint>

// How much adhesive a piece takes when the author does not say.

namespace leafwright::supply {

// Exactly one is filled, as the adhesive is measured.
struct Consumption {
  std::int64_t count = 0; // squares or dots
  Length length{};        // of tape
  Mass mass{};            // of glue
  Area area{};            // of adhesive sheet
};

// A strip is too narrow for two squares side by side.
bool is_strip(Size piece, const Adhesive& adhesive);

// For one copy of a piece of that size, all its layers. The author's own count or length in
// `attach` comes first. Otherwise:
//   tape     along all four edges, 1/4 in less at each corner; once along the middle of a strip
//   squares  one for every spacing x spacing begun, at least 4; on a strip one for every spacing
//            begun, at least 2
//   glue     spread x area
Consumption consumption_of(const Adhesive& adhesive, const Attach& attach, Size piece);

// For the ends of a ribbon: tape as long as the overlap (at least 1/2 in), two squares, or glue
// under the overlap.
Consumption consumption_of(const Adhesive& adhesive, const RibbonUse& use, Length ribbon_width);

} // namespace leafwright::supply
