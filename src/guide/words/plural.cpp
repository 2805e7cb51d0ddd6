#include "guide/words/plural.h"

#include <algorithm>
#include <array>
#include <utility>

namespace leafwright::guide::words {
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

} // namespace leafwright::guide::words
