#include "basics/utf8.h"

#include <cstdint>
#include <utility>

namespace leafwright::detail {
namespace {

struct Decoded {
  char32_t code;
  std::size_t bytes;
};

// Well-formed sequences only (Unicode 15, table 3-7): no overlong forms, no surrogates.
Decoded decode(std::string_view text, std::size_t at) {
  if (at >= text.size()) return {end_of_text, 0};
  const auto byte = [&](std::size_t i) {
    return at + i < text.size() ? static_cast<std::uint8_t>(text[at + i]) : std::uint8_t{0};
  };
  const auto continues = [&](std::size_t i) { return (byte(i) & 0xC0U) == 0x80U; };
  const std::uint32_t first = byte(0);
  if (first < 0x80) return {first, 1};
  const Decoded broken{not_a_letter, 1};
  if (first >= 0xC2 && first <= 0xDF && continues(1)) {
    return {(first & 0x1FU) << 6U | (byte(1) & 0x3FU), 2};
  }
  if (first >= 0xE0 && first <= 0xEF && continues(1) && continues(2)) {
    const char32_t code = (first & 0x0FU) << 12U | (byte(1) & 0x3FU) << 6U | (byte(2) & 0x3FU);
    const bool surrogate = code >= 0xD800 && code <= 0xDFFF;
    return code < 0x800 || surrogate ? broken : Decoded{code, 3};
  }
  if (first >= 0xF0 && first <= 0xF4 && continues(1) && continues(2) && continues(3)) {
    const char32_t code = (first & 0x07U) << 18U | (byte(1) & 0x3FU) << 12U |
                          (byte(2) & 0x3FU) << 6U | (byte(3) & 0x3FU);
    return code < 0x10000 || code > 0x10FFFF ? broken : Decoded{code, 4};
  }
  return broken;
}

} // namespace

bool is_blank(char32_t c) {
  switch (c) {
  case U' ':
  case U'\t':
  case U'\n':
  case U'\r':
  case U'\u00A0': // no-break space
  case U'\u2007': // figure space
  case U'\u2009': // thin space
  case U'\u202F': // narrow no-break space
    return true;
  default: return false;
  }
}

char32_t TextCursor::peek() const { return decode(text_, at_).code; }

char32_t TextCursor::next() {
  const Decoded here = decode(text_, at_);
  at_ += here.bytes;
  return here.code;
}

void TextCursor::advance() { at_ += decode(text_, at_).bytes; }

bool TextCursor::take(char32_t one) {
  if (peek() != one) return false;
  advance();
  return true;
}

bool TextCursor::skip_blanks() {
  const std::size_t start = at_;
  while (is_blank(peek())) advance();
  return at_ != start;
}

void append_character(std::string& out, char32_t code) {
  const auto add = [&out](char32_t byte) { out.push_back(static_cast<char>(byte)); };
  const auto continued = [&add, code](unsigned shift) { add(0x80U | (code >> shift & 0x3FU)); };
  if (code < 0x80) return add(code);
  if (code < 0x800) {
    add(0xC0U | code >> 6U);
  } else if (code < 0x10000) {
    add(0xE0U | code >> 12U);
    continued(6);
  } else {
    add(0xF0U | code >> 18U);
    continued(12);
    continued(6);
  }
  continued(0);
}

} // namespace leafwright::detail
