#pragma once

#include "basics/parsed.h"
#include "measure/length.h"
#include "model/card.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

// How measures and positions are spelled in a project, and what a calculation is worth while it is
// worked out: exact fractions, a Length in nanometres.
//
//   const auto parts = split_outside("mat.width, min(2, 3)", {0, 20}, ',');  // two

namespace leafwright::reading {

// Bytes from..to of the value that was parsed; empty when equal.
struct Span {
  std::size_t from = 0, to = 0;
  bool empty() const { return from >= to; }
};

// One direction of a position before its expression is worked out.
struct Along {
  enum class Kind {
    Centre,   // in the middle, moved by `distance` to the right or down (or, `back`, left or up)
    FromNear, // `distance` from the left or top edge
    FromFar,  // `distance` from the right or bottom edge
  };
  Kind kind = Kind::Centre;
  Span distance; // of an expression; empty is nothing
  bool back = false;
  bool given = false;
};

// "centre, 3/8 from top", "top left", "1/8 up", "row, centred", "centre, over ribbon".
struct ParsedPosition {
  Along across, down;
  std::optional<Span> over; // an id
  std::optional<Impression::Arranged> arranged;
};
Parsed<ParsedPosition> parse_position(std::string_view text);

// Parts of text[from, to) between `separator`s that stand outside parentheses.
std::vector<Span> split_outside(std::string_view text, Span whole, char separator);
// Without blanks at either end.
Span trimmed_span(std::string_view text, Span span);
std::string_view slice(std::string_view text, Span span);

// What the evaluator knows about the spelling of expressions, for those who look into them too.

// Letters as an XML name may hold them. Between U+2000 and U+2BFF stand signs: dashes, primes,
// fractions; × and ÷ are signs as well.
bool is_name_start(char32_t c);

// Whether a text that is no plain measure was meant as a calculation.
bool looks_like_calculation(std::string_view text);

// The × or x between the two sides of a size, outside parentheses.
std::optional<Span> side_parting(std::string_view text);

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
