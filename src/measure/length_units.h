#pragma once

#include "measure/length.h"
#include "measure/letters.h"
#include "measure/parse_length.h"

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

// The units of length that may be written in a project. Each is one row here, and whoever reads a
// length asks here.

namespace leafwright {

struct LengthUnit {
  std::string_view name; // "an inch"
  std::int64_t nm;
  Unit system; // whose measures it belongs to
  // The first is the symbol; the rest of the row stays empty. Capitals do not matter.
  std::array<std::string_view, 12> spellings;
};

inline constexpr std::array length_units = {
    LengthUnit{"an inch",
               nm_per_inch,
               Unit::Inch,
               {"in", "inches", "inch", "in.", "\"", "″", "”", "“", "''", "′′", "’’"}},
    LengthUnit{"a millimetre",
               nm_per_mm,
               Unit::Millimetre,
               {"mm", "millimetres", "millimeters", "millimetre", "millimeter"}},
    LengthUnit{"a centimetre",
               10 * nm_per_mm,
               Unit::Millimetre,
               {"cm", "centimetres", "centimeters", "centimetre", "centimeter"}},
};

// What a bare number is measured in: the first of its system.
const LengthUnit& bare_unit(Unit bare);
std::string unit_symbols(); // "in, mm or cm", for the mend of a finding

// The unit at the cursor, which is left behind it; nothing, and the cursor where it was, when there
// is none. The letters of a unit must end with it, but an `x` that parts two sides may touch it.
const LengthUnit* take_length_unit(detail::TextCursor& cursor);
// Whether the whole of `word` is a unit.
bool is_length_unit(std::string_view word);

} // namespace leafwright
