#include "measure/letters.h"

#include <fmt/format.h>

#include <cstdint>
#include <utility>

namespace leafwright::detail {

bool same_ignoring_case(std::string_view a, std::string_view b) {
  return a.size() == b.size() && starts_ignoring_case(a, b);
}

bool starts_ignoring_case(std::string_view text, std::string_view beginning) {
  if (text.size() < beginning.size()) return false;
  for (std::size_t i = 0; i < beginning.size(); ++i) {
    if (small_letter(text[i]) != small_letter(beginning[i])) return false;
  }
  return true;
}

std::string shown(std::string_view text) {
  constexpr int longest = 40;
  if (text.empty()) return "nothing";
  std::string out;
  TextCursor cursor(text);
  for (int count = 0; !cursor.done(); ++count) {
    if (count == longest) return out + "…";
    const char32_t c = cursor.peek();
    const std::size_t from = cursor.at();
    cursor.advance();
    const std::string_view bytes = text.substr(from, cursor.at() - from);
    const bool control = c < 0x20 || (c >= 0x7F && c < 0xA0) || c == not_a_letter;
    if (!control) {
      out += bytes;
      continue;
    }
    for (const char byte : bytes) {
      out += fmt::format("\\x{:02x}", static_cast<unsigned>(static_cast<std::uint8_t>(byte)));
    }
  }
  return out;
}

ParseError parse_error(std::string_view text, std::size_t from, std::size_t to,
                       std::string_view expected, std::string fix) {
  return {from, to - from, shown(text.substr(from, to - from)), std::string(expected),
          std::move(fix)};
}

std::size_t end_of_word(std::string_view text, std::size_t from) {
  TextCursor cursor(text);
  cursor.go_to(from);
  if (!cursor.done()) cursor.advance();
  while (!cursor.done() && !is_blank(cursor.peek())) cursor.advance();
  return cursor.at();
}

ParseError misread_word(std::string_view text, std::size_t from, std::string_view expected,
                        std::string fix) {
  return parse_error(text, from, end_of_word(text, from), expected, std::move(fix));
}

} // namespace leafwright::detail
