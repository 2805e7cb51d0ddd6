#include "language/weights.h"

#include <fmt/format.h>

namespace leafwright::words {
namespace {

constexpr std::int64_t mg_per_gram = 1'000;
// An ounce is 28 349.523 125 mg; a millionth of a milligram keeps it whole.
constexpr std::int64_t parts_per_mg = 1'000'000;
constexpr std::int64_t ounce_parts = 28'349'523'125;
constexpr std::int64_t ounces_per_pound = 16;

std::int64_t begun(std::int64_t whole, std::int64_t part) { return (whole + part - 1) / part; }

} // namespace

std::string parcel_weight(English english, Mass mass) {
  std::string grams = fmt::format("{}\u00A0g", begun(mass.mg, mg_per_gram));
  if (english == English::British || mass <= Mass{}) return grams;
  const std::int64_t ounces = begun(mass.mg * parts_per_mg, ounce_parts);
  const std::int64_t pounds = ounces / ounces_per_pound, rest = ounces % ounces_per_pound;
  if (pounds == 0) return fmt::format("{}\u00A0oz ({})", ounces, grams);
  if (rest == 0) return fmt::format("{}\u00A0lb ({})", pounds, grams);
  return fmt::format("{}\u00A0lb {}\u00A0oz ({})", pounds, rest, grams);
}

} // namespace leafwright::words
