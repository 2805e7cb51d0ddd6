#include "guide/words/article.h"

#include "measure/letters.h"

#include <algorithm>
#include <array>
#include <cctype>

namespace leafwright::guide::words {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_upper(char c) { return c >= 'A' && c <= 'Z'; }
bool is_lower(char c) { return c >= 'a' && c <= 'z'; }

// Quotes, brackets and ≈ are not spoken.
std::string_view spoken(std::string_view phrase) {
  constexpr std::array<std::string_view, 8> silent{" ", "\"", "'", "(", "“", "‘", "≈", "\u00A0"};
  for (bool again = true; again;) {
    again = false;
    for (const std::string_view mark : silent) {
      if (!phrase.starts_with(mark)) continue;
      phrase.remove_prefix(mark.size());
      again = true;
    }
  }
  return phrase;
}

// "eight", "eleven", "eighteen", "eighty", "eight hundred", "eleven thousand" begin with a vowel.
bool number_takes_an(std::string_view phrase) {
  std::size_t digits = 0;
  while (digits < phrase.size() && is_digit(phrase[digits])) ++digits;
  if (phrase.front() == '8') return true;
  // 11 and 18 are spoken first when they stand alone or before whole groups of three digits.
  const bool teen = phrase.starts_with("11") || phrase.starts_with("18");
  return teen && digits % 3 == 2;
}

bool letter_takes_an(char letter) {
  return std::string_view("AEFHILMNORSX").find(letter) != std::string_view::npos;
}

// Spelled out: single letters, capitals in a row, letters with a digit ("A2", "SVG", "C6").
bool is_spelled_out(std::string_view word) {
  if (word.empty() || !is_upper(word.front())) return false;
  return std::none_of(word.begin(), word.end(), is_lower);
}

bool starts_with_any(std::string_view word, std::initializer_list<std::string_view> beginnings) {
  return std::any_of(beginnings.begin(), beginnings.end(),
                     [&](std::string_view one) { return word.starts_with(one); });
}

bool sounds_like_a_vowel(const std::string& word) {
  if (starts_with_any(word, {"hour", "honest", "honour", "honor", "heir"})) return true;
  if (word == "one" || starts_with_any(word, {"one-", "once", "oneself", "ouija"})) return false;
  if (starts_with_any(word, {"eu", "ewe", "uke", "ukulele", "ubiq", "unanim"})) return false;
  if (starts_with_any(word, {"use", "usu", "usa", "uten", "utili", "utop", "uvu"})) return false;
  if (starts_with_any(word, {"unin", "unim", "unid"})) return true; // uninked, unimportant
  if (starts_with_any(word, {"uni"})) return false;                 // uniform, unit
  return std::string_view("aeiou").find(word.front()) != std::string_view::npos;
}

bool takes_an(std::string_view phrase) {
  phrase = spoken(phrase);
  if (phrase.empty()) return false;
  if (is_digit(phrase.front())) return number_takes_an(phrase);
  std::size_t end = 0;
  while (end < phrase.size() &&
         (std::isalnum(static_cast<unsigned char>(phrase[end])) != 0 || phrase[end] == '-'))
    ++end;
  const std::string_view word = phrase.substr(0, end);
  if (word.empty()) return false;
  if (is_spelled_out(word.substr(0, word.find('-')))) return letter_takes_an(word.front());
  return sounds_like_a_vowel(small_letters(word));
}

} // namespace

std::string_view article(std::string_view phrase) { return takes_an(phrase) ? "an" : "a"; }

std::string with_article(std::string_view phrase) {
  return std::string(article(phrase)) + " " + std::string(phrase);
}

std::string_view without_article(std::string_view phrase) {
  const std::string start = small_letters(phrase.substr(0, 4));
  for (const std::string_view one : {"the ", "an ", "a "})
    if (start.starts_with(one)) return phrase.substr(one.size());
  return phrase;
}

std::string with_the(std::string_view phrase) {
  const std::string start = small_letters(phrase.substr(0, 6));
  for (const std::string_view one : {"the ", "your ", "each ", "both "})
    if (start.starts_with(one)) return std::string(phrase);
  return "the " + std::string(without_article(phrase));
}

} // namespace leafwright::guide::words
