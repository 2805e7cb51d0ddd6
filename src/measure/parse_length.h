#pragma once

#include "basics/parsed.h"
#include "measure/length.h"
#include "measure/letters.h"

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

// Lengths, sizes and angles as a paper crafter writes them, into exact values; the units that may
// be written; and numbers, for parsers of other measures.
//
//   const Parsed<Length> width = parse_length("4-1/4", Unit::Inch);
//   if (!width) report(width.parse_error()); else cut(*width);

namespace leafwright {

// `4 1/4`, `4-1/4`, `4¼`, `17/4`, `4.25`, `108mm`, `10.5 cm`, `5 1/2 in`, `3/8"`. A bare number is
// in `bare`. Refused: negative lengths, a zero divisor, `4 1 4`, anything above 100 m, exponents, a
// decimal comma (the mend says to write a point), mixed units. Decimals are exact to 1 nm; finer
// digits are refused. Surrounding blanks are allowed.
Parsed<Length> parse_length(std::string_view text, Unit bare);

// `W x H` or `W × H`; one unit at the end serves both (`4 1/4 x 5 1/2 in`, `105 x 148 mm`). Both
// sides must be more than 0.
Parsed<Size> parse_size(std::string_view text, Unit bare);

// `90`, `-7.5`, `12.5deg`, `45°`: clockwise degrees, at most a full turn either way.
Parsed<Angle> parse_angle(std::string_view text);

// The units of length that may be written in a project. Each is one row here, and whoever reads a
// length asks here.

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

// Exact numbers, for parsers and printers.

namespace leafwright::detail {

// `count` times 10^-places without trailing zeros: (10795, 2) is "107.95", (500, 2) is "5".
// count >= 0, places 0 to 18.
std::string decimal_text(std::int64_t count, int places);

__extension__ using Wide = __int128;

// whole + numerator / denominator, exactly as written; 0 <= whole <= 10^12.
struct Number {
  std::int64_t whole = 0;
  std::int64_t numerator = 0;   // below 10^18
  std::int64_t denominator = 1; // 1 to 10^18
  bool decimal = false;         // written with a point
  std::size_t at = 0;           // where it stood in the text
  std::size_t length = 0;
};

// Reads `4`, `4.25`, `.5`, `17/4`, `4 1/4`, `4-1/4`, `4¼`, `¼` at the cursor and leaves it behind
// the last character of the number. `⁄` (U+2044) is a slash too. `expected` goes into the misread.
Parsed<Number> read_number(TextCursor& cursor, std::string_view expected);

// The number times scale / divisor when that is a whole number below 2^63, else nothing.
std::optional<std::int64_t> times_exactly(const Number& number, std::int64_t scale,
                                          std::int64_t divisor = 1);
// The same to the nearest whole number, halves up; nothing when it does not fit.
std::optional<std::int64_t> times_nearest(const Number& number, std::int64_t scale,
                                          std::int64_t divisor = 1);

} // namespace leafwright::detail
