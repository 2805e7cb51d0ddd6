#pragma once

#include <cstddef>
#include <string>
#include <string_view>

// UTF-8, read and written character by character (Unicode 15, table 3-7). The one place that knows
// how bytes make a character.

namespace leafwright::detail {

inline constexpr char32_t end_of_text = 0x110000;  // beyond Unicode
inline constexpr char32_t not_a_letter = 0x110001; // a byte that is not part of valid UTF-8

// Blank, tab, line end, and the no-break, thin and figure spaces that a word processor puts in.
bool is_blank(char32_t c);

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
  char32_t next();         // the character here; advances
  void advance();          // one character
  bool take(char32_t one); // advances when that character is next
  // Returns whether there were any.
  bool skip_blanks();

 private:
  std::string_view text_;
  std::size_t at_ = 0;
};

// Whether a byte is the first, or only, one of a character; the others continue it.
constexpr bool begins_character(char byte) {
  return (static_cast<unsigned char>(byte) & 0xC0U) != 0x80U;
}

// `code` is a character: below 0x110000 and no surrogate.
void append_character(std::string& out, char32_t code);

// The code points that Unicode keeps for no character (23.7): U+FDD0 to U+FDEF and the last two of
// each plane. No text is meant to hold them, and libraries use them as marks of their own.
constexpr bool is_noncharacter(char32_t c) {
  return (c >= 0xFDD0 && c <= 0xFDEF) || (c <= 0x10FFFF && (c & 0xFFFEU) == 0xFFFE);
}

} // namespace leafwright::detail
