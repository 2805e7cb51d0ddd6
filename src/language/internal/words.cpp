#include "language/words.h"

#include "measure/index.h"
#include "measure/letters.h"

#include <algorithm>
#include <array>
#include <numeric>

namespace leafwright::words {

std::string count_words(std::int64_t n) {
  constexpr std::array<std::string_view, 11> small{"no",  "one",   "two",   "three", "four", "five",
                                                   "six", "seven", "eight", "nine",  "ten"};
  if (n >= 0 && n <= 10) return std::string(small.at(as_index(n)));
  return std::to_string(n);
}

std::string counted(std::int64_t n, std::string_view noun) {
  return count_words(n) + " " + (n == 1 ? std::string(noun) : plural(noun));
}

std::string figured(std::int64_t n, std::string_view noun) {
  return std::to_string(n) + "\u00A0" + (n == 1 ? std::string(noun) : plural(noun));
}

std::string times_words(std::int64_t n) {
  if (n == 1) return "once";
  if (n == 2) return "twice";
  return count_words(n) + " times";
}

std::string share_words(int numerator, int denominator) {
  if (denominator <= 0 || numerator <= 0) return "no";
  const int common = std::gcd(numerator, denominator);
  const int upper = numerator / common;
  const int lower = denominator / common;
  if (lower == 1) return upper == 1 ? "all" : count_words(upper);
  if (upper > lower)
    return std::to_string(upper / lower) + "\u00A0" + std::to_string(upper % lower) + "/" +
           std::to_string(lower);
  if (lower == 2) return "half";
  constexpr std::array<std::string_view, 7> names{"", "", "", "third", "quarter", "fifth", "sixth"};
  std::string name;
  if (lower < static_cast<int>(names.size())) name = names.at(as_index(lower));
  if (lower == 8) name = "eighth";
  if (name.empty()) return std::to_string(upper) + "/" + std::to_string(lower);
  if (upper == 1) return (name == "eighth" ? "an " : "a ") + name;
  return count_words(upper) + " " + name + "s";
}

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

namespace {

std::vector<std::string> words_of(std::string_view phrase) {
  std::vector<std::string> out;
  while (!phrase.empty()) {
    const std::size_t end = std::min(phrase.find(' '), phrase.size());
    if (end > 0) out.emplace_back(phrase.substr(0, end));
    phrase.remove_prefix(std::min(end + 1, phrase.size()));
  }
  return out;
}

std::string joined(const std::vector<std::string>& words, std::size_t from, std::size_t to) {
  std::string out;
  for (std::size_t i = from; i < to; ++i) out += (i == from ? "" : " ") + words.at(i);
  return out;
}

// How many words all names end with alike, leaving at least one word of each before them.
std::size_t shared_end(const std::vector<std::vector<std::string>>& names) {
  std::size_t shortest = names.front().size();
  for (const auto& name : names) shortest = std::min(shortest, name.size());
  std::size_t same = 0;
  const auto alike = [&](std::size_t from_end) {
    const std::string& word = names.front().at(names.front().size() - from_end);
    return std::all_of(names.begin(), names.end(),
                       [&](const auto& name) { return name.at(name.size() - from_end) == word; });
  };
  while (same + 1 < shortest && alike(same + 1)) ++same;
  return same;
}

bool is_number(const std::string& word) {
  return !word.empty() &&
         std::all_of(word.begin(), word.end(), [](char c) { return c >= '0' && c <= '9'; });
}

// "leaf 1" and "leaf 2" give "leaves 1 and 2"; empty when the names are not of that kind.
std::string listed_by_number(const std::vector<std::vector<std::string>>& names) {
  std::vector<std::string> numbers;
  const std::size_t length = names.front().size();
  if (length < 2) return {};
  const std::string beginning = joined(names.front(), 0, length - 1);
  for (const auto& name : names) {
    if (name.size() != length || !is_number(name.back()) ||
        joined(name, 0, length - 1) != beginning)
      return {};
    numbers.push_back(name.back());
  }
  return plural(beginning) + " " + listed(numbers);
}

} // namespace

std::string listed(const std::vector<std::string>& parts, std::string_view joined_by) {
  if (parts.empty()) return {};
  std::string out = parts.front();
  for (std::size_t i = 1; i < parts.size(); ++i) {
    const bool last = i + 1 == parts.size();
    const bool holds_and = parts.at(i).find(" and ") != std::string::npos;
    if (!last || (parts.size() > 2 && holds_and)) out += ",";
    out += " ";
    if (last) out += std::string(joined_by) + " ";
    out += parts.at(i);
  }
  return out;
}

std::string listed_together(const std::vector<std::string>& names) {
  if (names.size() < 2) return names.empty() ? std::string() : names.front();
  const bool equal = std::all_of(names.begin(), names.end(),
                                 [&](const std::string& name) { return name == names.front(); });
  if (equal) return plural(names.front());
  std::vector<std::vector<std::string>> split;
  split.reserve(names.size());
  for (const std::string& name : names) split.push_back(words_of(name));
  if (std::any_of(split.begin(), split.end(), [](const auto& name) { return name.empty(); }))
    return listed(names);
  if (std::string numbered = listed_by_number(split); !numbered.empty()) return numbered;
  const std::size_t same = shared_end(split);
  if (same == 0) return listed(names);
  const auto& first = split.front();
  const std::string end = joined(first, first.size() - same, first.size());
  if (names.size() > 2) return counted(static_cast<std::int64_t>(names.size()), end);
  std::vector<std::string> beginnings;
  beginnings.reserve(split.size());
  for (const auto& name : split) beginnings.push_back(joined(name, 0, name.size() - same));
  return listed(beginnings) + " " + plural(end);
}

namespace {

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

} // namespace leafwright::words
