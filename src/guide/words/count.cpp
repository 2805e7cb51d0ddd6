#include "guide/words/count.h"

#include "guide/words/plural.h"
#include "measure/index.h"

#include <array>

namespace leafwright::guide::words {

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

std::string ordinal_words(std::int64_t n) {
  constexpr std::array<std::string_view, 10> small{"first", "second",  "third",  "fourth", "fifth",
                                                   "sixth", "seventh", "eighth", "ninth",  "tenth"};
  if (n >= 1 && n <= 10) return std::string(small.at(as_index(n - 1)));
  const std::int64_t last = n % 10;
  const bool teen = n % 100 >= 11 && n % 100 <= 13;
  std::string_view ending = "th";
  if (!teen && last == 1) ending = "st";
  if (!teen && last == 2) ending = "nd";
  if (!teen && last == 3) ending = "rd";
  return std::to_string(n) + std::string(ending);
}

} // namespace leafwright::guide::words
