#pragma once

#include "measure/parsed.h"

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

inline constexpr char32_t end_of_text = 0x110000;  // beyond Unicode
inline constexpr char32_t not_a_letter = 0x110001; // a byte that is not part of valid UTF-8

// A place in UTF-8 text. Broken bytes are reported as `not_a_letter`, one byte each; no read ever
// leaves the text.
class TextCursor {
 public:
  explicit TextCursor(std::string_view text) : text_(text) {}

  std::size_t at() const { return at_; }
  bool done() const { return at_ >= text_.size(); }
  std::string_view rest() const { return text_.substr(at_); }
  std::string_view text() const { return text_; }
  void go_to(std::size_t at) { at_ = at < text_.size() ? at : text_.size(); }

  char32_t peek() const;
  void advance();          // one character
  bool take(char32_t one); // advances when that character is next
  // Blank, tab, line end, and the no-break, thin and figure spaces that a word processor puts in.
  // Returns whether there were any.
  bool skip_blanks();

 private:
  std::string_view text_;
  std::size_t at_ = 0;
};

bool is_blank(char32_t c);
constexpr bool is_digit(char32_t c) { return c >= U'0' && c <= U'9'; }
constexpr bool is_ascii_letter(char32_t c) {
  return (c >= U'a' && c <= U'z') || (c >= U'A' && c <= U'Z');
}
// Hyphen-minus, minus sign U+2212, and the en dash that word processors make of a hyphen.
constexpr bool is_minus(char32_t c) { return c == U'-' || c == U'\u2212' || c == U'\u2013'; }

// The code points that Unicode keeps for no character (23.7): U+FDD0 to U+FDEF and the last two of
// each plane. No text is meant to hold them, and libraries use them as marks of their own.
constexpr bool is_noncharacter(char32_t c) {
  return (c >= 0xFDD0 && c <= 0xFDEF) || (c <= 0x10FFFF && (c & 0xFFFEU) == 0xFFFE);
}

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
