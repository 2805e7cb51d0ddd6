#pragma once

#include "measure/length.h"

#include <cstdint>
#include <optional>
#include <string>

namespace leafwright::reading {

__extension__ using Wide = __int128;

// An exact fraction in lowest terms, lower number positive. Operations give nothing when a number
// would not fit any more.
struct Fraction {
  Wide above = 0;
  Wide below = 1;
};
std::optional<Fraction> fraction(Wide above, Wide below);
std::optional<Fraction> sum(Fraction a, Fraction b);
std::optional<Fraction> product(Fraction a, Fraction b);
std::optional<Fraction> quotient(Fraction a, Fraction b); // b must not be 0
Fraction negated(Fraction a);
bool less(Fraction a, Fraction b);

// What an expression is worth while it is worked out. A bare number is not decided yet: beside a
// length it means a length in the project's unit, as a factor it is a number.
struct Quantity {
  enum class Kind { Bare, Number, Length };
  Kind kind = Kind::Bare;
  Fraction value; // Length: nanometres
};
Quantity quantity(Length length);
// The nearest nanometre; nothing beyond 100 m.
std::optional<Length> as_length(const Quantity& quantity, Length unit);
std::string kind_words(const Quantity& quantity); // "a length", "a number"

} // namespace leafwright::reading
