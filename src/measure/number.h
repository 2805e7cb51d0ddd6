#pragma once

#include "measure/parsed.h"
#include "measure/text_cursor.h"

#include <cstdint>
#include <optional>
#include <string_view>

// Numbers as a paper crafter writes them, read into exact fractions. For the parsers of this room.

namespace leafwright::detail {

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
