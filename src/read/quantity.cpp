#include "read/quantity.h"

#include <limits>

namespace leafwright::reading {
namespace {

Wide magnitude(Wide a) { return a < 0 ? -a : a; }

Wide common(Wide a, Wide b) {
  a = magnitude(a);
  b = magnitude(b);
  while (b != 0) {
    const Wide rest = a % b;
    a = b;
    b = rest;
  }
  return a;
}

// Far above any sensible measure and far below overflow: 10^27.
constexpr Wide largest_part = Wide{1'000'000'000'000'000} * 1'000'000'000'000;

bool too_large(Wide a) { return magnitude(a) > largest_part; }

} // namespace

std::optional<Fraction> fraction(Wide above, Wide below) {
  if (below == 0) return std::nullopt;
  const Wide shared = common(above, below);
  Fraction result{above / shared, below / shared};
  if (result.below < 0) result = {-result.above, -result.below};
  if (too_large(result.above) || too_large(result.below)) return std::nullopt;
  return result;
}

std::optional<Fraction> sum(Fraction a, Fraction b) {
  Wide left = 0, right = 0, above = 0, below = 0;
  if (__builtin_mul_overflow(a.above, b.below, &left) ||
      __builtin_mul_overflow(b.above, a.below, &right) ||
      __builtin_add_overflow(left, right, &above) ||
      __builtin_mul_overflow(a.below, b.below, &below))
    return std::nullopt;
  return fraction(above, below);
}

std::optional<Fraction> product(Fraction a, Fraction b) {
  Wide above = 0, below = 0;
  if (__builtin_mul_overflow(a.above, b.above, &above) ||
      __builtin_mul_overflow(a.below, b.below, &below))
    return std::nullopt;
  return fraction(above, below);
}

std::optional<Fraction> quotient(Fraction a, Fraction b) {
  return product(a, b.above < 0 ? Fraction{-b.below, -b.above} : Fraction{b.below, b.above});
}

Fraction negated(Fraction a) { return {-a.above, a.below}; }

bool less(Fraction a, Fraction b) {
  const auto difference = sum(a, negated(b));
  if (difference) return difference->above < 0;
  // Too fine to subtract exactly: the quotients tell them apart well enough to order them.
  return static_cast<double>(a.above) / static_cast<double>(a.below) <
         static_cast<double>(b.above) / static_cast<double>(b.below);
}

Quantity quantity(Length length) { return {Quantity::Kind::Length, {length.nm, 1}}; }

std::optional<Length> as_length(const Quantity& quantity, Length unit) {
  std::optional<Fraction> nm = quantity.value;
  if (quantity.kind == Quantity::Kind::Bare) nm = product(quantity.value, {unit.nm, 1});
  if (!nm) return std::nullopt;
  const Wide half = nm->above < 0 ? -nm->below / 2 : nm->below / 2;
  const Wide nearest = (nm->above + half) / nm->below;
  if (magnitude(nearest) > Wide{100'000} * nm_per_mm) return std::nullopt;
  return Length{static_cast<std::int64_t>(nearest)};
}

std::string kind_words(const Quantity& quantity) {
  return quantity.kind == Quantity::Kind::Length ? "a length" : "a number";
}

} // namespace leafwright::reading
