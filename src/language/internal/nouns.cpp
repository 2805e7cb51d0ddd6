#include "language/words.h"

#include "measure/letters.h"

#include <algorithm>
#include <array>
#include <utility>

namespace leafwright::words {
namespace {

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
  if (word.empty() || !is_capital(word.front())) return false;
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
         (is_letter(phrase[end]) || is_digit(phrase[end]) || phrase[end] == '-'))
    ++end;
  const std::string_view word = phrase.substr(0, end);
  if (word.empty()) return false;
  if (is_spelled_out(word.substr(0, word.find('-')))) return letter_takes_an(word.front());
  return sounds_like_a_vowel(small_letters(word));
}

} // namespace

std::string with_article(std::string_view phrase) {
  return (takes_an(phrase) ? "an " : "a ") + std::string(phrase);
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

namespace {

using Pair = std::pair<std::string_view, std::string_view>; // one, many

constexpr std::array<Pair, 18> irregular{{{"leaf", "leaves"},
                                          {"half", "halves"},
                                          {"knife", "knives"},
                                          {"shelf", "shelves"},
                                          {"loaf", "loaves"},
                                          {"scarf", "scarves"},
                                          {"sheaf", "sheaves"},
                                          {"foot", "feet"},
                                          {"goose", "geese"},
                                          {"mouse", "mice"},
                                          {"tooth", "teeth"},
                                          {"child", "children"},
                                          {"person", "people"},
                                          {"man", "men"},
                                          {"woman", "women"},
                                          {"potato", "potatoes"},
                                          {"tomato", "tomatoes"},
                                          {"wolf", "wolves"}}};

constexpr std::array<std::string_view, 12> unchanging{
    "scissors", "tweezers", "pliers", "paper", "cardstock", "card stock",
    "twine",    "powder",   "sheep",  "glue",  "acetate",   "vellum"};

// Singular nouns that end in s.
constexpr std::array<std::string_view, 7> singular_in_s{"canvas", "iris", "cosmos", "citrus",
                                                        "cactus", "lens", "bias"};

bool is_vowel(char c) { return std::string_view("aeiouAEIOU").find(c) != std::string_view::npos; }

// The phrase cut after the word that takes the ending: before " of ", " for ", " with ", a comma or
// a bracket.
std::size_t head_length(std::string_view phrase) {
  std::size_t end = phrase.size();
  for (const std::string_view mark :
       {" of ", " for ", " with ", " in ", " from ", " on ", ",", " ("})
    end = std::min(end, phrase.find(mark) == std::string_view::npos ? end : phrase.find(mark));
  return end;
}

std::size_t last_word_at(std::string_view head) {
  std::size_t at = head.find_last_of(" -");
  const std::size_t no_break = head.rfind("\u00A0");
  at = at == std::string_view::npos ? 0 : at + 1;
  if (no_break != std::string_view::npos) at = std::max(at, no_break + 2);
  return at;
}

bool never_changes(std::string_view word) {
  return std::find(unchanging.begin(), unchanging.end(), word) != unchanging.end();
}

bool plural_word(std::string_view word) {
  if (word.size() < 3) return false;
  for (const Pair& pair : irregular)
    if (word == pair.second) return true;
  if (never_changes(word)) return word.ends_with('s');
  if (std::find(singular_in_s.begin(), singular_in_s.end(), word) != singular_in_s.end())
    return false;
  return word.ends_with('s') && !word.ends_with("ss") && !word.ends_with("us");
}

std::string plural_of_word(std::string_view word) {
  if (word.empty() || never_changes(word) || plural_word(word)) return std::string(word);
  for (const Pair& pair : irregular)
    if (word == pair.first) return std::string(pair.second);
  const auto ends = [&](std::string_view ending) { return word.ends_with(ending); };
  if (ends("s") || ends("x") || ends("z") || ends("ch") || ends("sh"))
    return std::string(word) + "es";
  if (ends("y") && word.size() > 1 && !is_vowel(word[word.size() - 2]))
    return std::string(word.substr(0, word.size() - 1)) + "ies";
  return std::string(word) + "s";
}

std::string singular_of_word(std::string_view word) {
  if (!plural_word(word) || never_changes(word)) return std::string(word);
  for (const Pair& pair : irregular)
    if (word == pair.second) return std::string(pair.first);
  const auto without = [&](std::size_t letters) {
    return std::string(word.substr(0, word.size() - letters));
  };
  if (word.size() > 4 && word.ends_with("ies")) return without(3) + "y";
  for (const std::string_view ending : {"sses", "xes", "zes", "ches", "shes"})
    if (word.ends_with(ending)) return without(2);
  return without(1);
}

template <class Change>
std::string change_head(std::string_view phrase, Change change) {
  const std::size_t head = head_length(phrase);
  const std::size_t at = last_word_at(phrase.substr(0, head));
  return std::string(phrase.substr(0, at)) + change(phrase.substr(at, head - at)) +
         std::string(phrase.substr(head));
}

} // namespace

std::string plural(std::string_view noun_phrase) {
  return change_head(noun_phrase, plural_of_word);
}

std::string singular(std::string_view noun_phrase) {
  return change_head(noun_phrase, singular_of_word);
}

bool is_plural(std::string_view noun_phrase) {
  const std::string_view head = noun_phrase.substr(0, head_length(noun_phrase));
  return plural_word(head.substr(last_word_at(head)));
}

} // namespace leafwright::words
