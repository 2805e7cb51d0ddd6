#include "language/agreement.h"

#include "language/words.h"

#include <algorithm>
#include <array>

namespace leafwright::words {
namespace {

constexpr std::array<std::string_view, 5> hisses{"s", "x", "z", "ch", "sh"};
constexpr std::string_view vowels = "aeiou";

} // namespace

std::string agreed(std::string_view verb, std::int64_t n) {
  if (verb == "be") return n == 1 ? "is" : "are";
  if (n != 1) return std::string(verb);
  if (verb == "have") return "has";
  if (verb == "do" || verb == "go") return std::string(verb) + "es";
  if (std::any_of(hisses.begin(), hisses.end(),
                  [&](std::string_view end) { return verb.ends_with(end); }))
    return std::string(verb) + "es";
  const bool after_consonant =
      verb.size() > 1 && vowels.find(verb[verb.size() - 2]) == std::string_view::npos;
  if (verb.ends_with('y') && after_consonant)
    return std::string(verb.substr(0, verb.size() - 1)) + "ies";
  return std::string(verb) + "s";
}

std::string noun_for(std::int64_t n, std::string_view noun) {
  return n == 1 ? std::string(noun) : plural(noun);
}

std::string_view it_or_them(std::int64_t n) { return n == 1 ? "it" : "them"; }

} // namespace leafwright::words
