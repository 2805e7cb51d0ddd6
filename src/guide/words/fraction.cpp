#include "guide/words/fraction.h"

#include "guide/words/count.h"
#include "measure/index.h"

#include <array>
#include <numeric>

namespace leafwright::guide::words {

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

} // namespace leafwright::guide::words
