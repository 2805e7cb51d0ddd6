#pragma once

#include "basics/parsed.h"
#include "basics/utf8.h"

#include <algorithm>
#include <cstddef>
#include <string>
#include <string_view>

// Small letters for capitals, of ASCII alone: whatever the locale, and no other alphabet's.

namespace leafwright {

constexpr bool is_digit(char c) { return c >= '0' && c <= '9'; }
constexpr bool is_capital(char c) { return c >= 'A' && c <= 'Z'; }
constexpr bool is_letter(char c) { return is_capital(c) || (c >= 'a' && c <= 'z'); }

constexpr char small_letter(char c) {
  return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

inline std::string small_letters(std::string_view text) {
  std::string out(text);
  std::ranges::transform(out, out.begin(), small_letter);
  return out;
}

// Without blanks, tabs and line ends at both ends.
constexpr std::string_view trimmed(std::string_view text) {
  constexpr std::string_view blanks = " \t\r\n";
  const std::size_t from = text.find_first_not_of(blanks);
  if (from == std::string_view::npos) return {};
  return text.substr(from, text.find_last_not_of(blanks) - from + 1);
}

// Whether `word` stands anywhere in `text`, capitals or not.
inline bool mentions(std::string_view text, std::string_view word) {
  return std::search(text.begin(), text.end(), word.begin(), word.end(), [](char a, char b) {
           return small_letter(a) == small_letter(b);
         }) != text.end();
}

} // namespace leafwright

// Reading a short attribute character by character. For the parsers of this room; other rooms have
// no need of it.

namespace leafwright::detail {

constexpr bool is_digit(char32_t c) { return c >= U'0' && c <= U'9'; }
constexpr bool is_ascii_letter(char32_t c) {
  return (c >= U'a' && c <= U'z') || (c >= U'A' && c <= U'Z');
}
// Hyphen-minus, minus sign U+2212, and the en dash that word processors make of a hyphen.
constexpr bool is_minus(char32_t c) { return c == U'-' || c == U'\u2212' || c == U'\u2013'; }

// ASCII case only: neither locale nor Unicode tables.
bool same_ignoring_case(std::string_view a, std::string_view b);
bool starts_ignoring_case(std::string_view text, std::string_view beginning);

// Text fit to be shown in a finding: cut after about 40 characters with "…", control characters and
// broken bytes written as \xNN; "nothing" when empty.
std::string shown(std::string_view text);

// The misread of text[from, to).
ParseError parse_error(std::string_view text, std::size_t from, std::size_t to,
                       std::string_view expected, std::string fix);
// From `from` up to the next blank, at least one character.
std::size_t end_of_word(std::string_view text, std::size_t from);
// The same, reporting the whole word that starts at `from`.
ParseError misread_word(std::string_view text, std::size_t from, std::string_view expected,
                        std::string fix);

} // namespace leafwright::detail
