#pragma once

#include <algorithm>
#include <string>
#include <string_view>

// Small letters for capitals, of ASCII alone: whatever the locale, and no other alphabet's.

namespace leafwright {

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
