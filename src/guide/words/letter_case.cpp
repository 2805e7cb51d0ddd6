#include "guide/words/letter_case.h"

#include <array>

namespace leafwright::guide::words {
namespace {

// Capital of a two-byte UTF-8 letter, or the same. U+00E0-00FE lie 0x20 above their capitals
// (÷ and ÿ excepted); U+0101-0137 and U+014B-0177 are odd with the capital one below; U+013A-0148
// and U+017A-017E are even with the capital one below.
char32_t capital(char32_t c) {
  if (c >= 0xE0 && c <= 0xFE && c != 0xF7) return c - 0x20;
  const bool odd = (c & 1U) != 0;
  if (((c >= 0x101 && c <= 0x137) || (c >= 0x14B && c <= 0x177)) && odd && c != 0x131) return c - 1;
  if (((c >= 0x13A && c <= 0x148) || (c >= 0x17A && c <= 0x17E)) && !odd) return c - 1;
  return c;
}

} // namespace

std::string sentence_case(std::string_view text) {
  std::string out(text);
  std::size_t at = 0;
  constexpr std::array<std::string_view, 6> opening{"\"", "'", "(", "“", "‘", " "};
  for (bool again = true; again;) {
    again = false;
    for (const std::string_view mark : opening) {
      if (!std::string_view(out).substr(at).starts_with(mark)) continue;
      at += mark.size();
      again = true;
    }
  }
  if (at >= out.size()) return out;
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(out[i]); };
  if (out[at] >= 'a' && out[at] <= 'z') {
    out[at] = static_cast<char>(out[at] - 'a' + 'A');
  } else if (byte(at) >= 0xC3 && byte(at) <= 0xC5 && at + 1 < out.size()) {
    const char32_t c = ((byte(at) & 0x1FU) << 6U) | (byte(at + 1) & 0x3FU);
    const char32_t up = capital(c);
    out[at] = static_cast<char>(0xC0U | (up >> 6U));
    out[at + 1] = static_cast<char>(0x80U | (up & 0x3FU));
  }
  return out;
}

} // namespace leafwright::guide::words
