#include "guide/words/tie.h"

#include <algorithm>
#include <array>
#include <cctype>

namespace leafwright::guide::words {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }

bool ends_in_number(std::string_view text) {
  constexpr std::array<std::string_view, 6> more{"¼", "½", "¾", "⅛", "⅜", "×"};
  return !text.empty() && (is_digit(text.back()) ||
                           std::any_of(more.begin(), more.end(),
                                       [&](std::string_view one) { return text.ends_with(one); }));
}

// The next word is a unit, a fraction, a times sign or, after one, a number.
bool belongs_to_number(std::string_view before, std::string_view rest) {
  constexpr std::array<std::string_view, 12> units{"in",  "mm",   "cm", "m",   "lb", "g",
                                                   "gsm", "g/m²", "h",  "min", "%",  "oz"};
  const std::string_view word = rest.substr(0, rest.find_first_of(" ,.;:)\n"));
  if (std::find(units.begin(), units.end(), word) != units.end()) return true;
  if (word == "×" || word == "x") return true;
  if (before.ends_with("×") || before.ends_with(" x")) return !word.empty() && is_digit(word[0]);
  const std::size_t slash = word.find('/');
  return slash != std::string_view::npos && slash > 0 && slash + 1 < word.size() &&
         is_digit(word[0]) && is_digit(word[slash + 1]);
}

} // namespace

std::string tie_measures(std::string_view text) {
  std::string out;
  out.reserve(text.size() + 8);
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool tied = text[i] == ' ' && ends_in_number(text.substr(0, i)) &&
                      belongs_to_number(text.substr(0, i), text.substr(i + 1));
    if (tied) {
      out += "\u00A0";
    } else {
      out += text[i];
    }
  }
  return out;
}

} // namespace leafwright::guide::words
