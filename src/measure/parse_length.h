#pragma once

#include "measure/parsed.h"
#include "measure/shape.h"

#include <string_view>

namespace leafwright {

// The unit that a bare number stands for; a project chooses one.
enum class Unit { Inch, Millimetre };

// `4 1/4`, `4-1/4`, `4¼`, `17/4`, `4.25`, `108mm`, `10.5 cm`, `5 1/2 in`, `3/8"`. A bare number is
// in `bare`. Refused: negative lengths, a zero divisor, `4 1 4`, anything above 100 m, exponents, a
// decimal comma (the mend says to write a point), mixed units. Decimals are exact to 1 nm; finer
// digits are refused. Surrounding blanks are allowed.
Parsed<Length> parse_length(std::string_view text, Unit bare);

// The same, and a leading minus sign is allowed (offsets).
Parsed<Length> parse_offset(std::string_view text, Unit bare);

// `W x H` or `W × H`; one unit at the end serves both (`4 1/4 x 5 1/2 in`, `105 x 148 mm`). Both
// sides must be more than 0.
Parsed<Size> parse_size(std::string_view text, Unit bare);

// `90`, `-7.5`, `12.5deg`, `45°`: clockwise degrees, at most a full turn either way.
Parsed<Angle> parse_angle(std::string_view text);

} // namespace leafwright
