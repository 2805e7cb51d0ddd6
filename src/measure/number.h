#pragma once

#include "measure/letters.h"
#include "measure/parsed.h"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

// For the printers of this room.

namespace leafwright::detail {

// `count` times 10^-places without trailing zeros: (10795, 2) is "107.95", (500, 2) is "5".
// count >= 0, places 0 to 18.
std::string decimal_text(std::int64_t count, int places);

// Numbers as a paper crafter writes them, read into exact fractions. For the parsers of this room.

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
