#pragma once

#include <cstddef>
#include <string_view>
#include <vector>

namespace leafwright::text {

// Bytes [begin, end) of a text.
struct ByteRange {
  std::size_t begin = 0, end = 0;
  friend bool operator==(ByteRange, ByteRange) = default;
};

// Where `text` holds a fraction: digits, one slash ("/" or U+2044), digits. A date or a version
// such as 12/25/26 or 1/2.5 is none, nor is a size such as A4/5. A unit may follow at once (1/2in).
std::vector<ByteRange> fractions_in(std::string_view text);

} // namespace leafwright::text
