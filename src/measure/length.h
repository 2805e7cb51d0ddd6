#pragma once

#include <compare>
#include <cstdint>

// Exact lengths. One nanometre is the unit because 1/64 in = 396 875 nm and every decimal of a
// millimetre down to six places are both whole numbers of it (1 in = 25.4 mm exactly, the
// international inch of 1959).

namespace leafwright {

// A signed length in whole nanometres. Range about +-9.2e9 m: sums of real card sizes cannot
// overflow; the parser refuses lengths above 100 m.
struct Length {
  std::int64_t nm = 0;

  friend constexpr auto operator<=>(Length, Length) = default; // NOLINT(modernize-use-nullptr)
  constexpr Length operator-() const { return {-nm}; }
  constexpr Length& operator+=(Length other) {
    nm += other.nm;
    return *this;
  }
  constexpr Length& operator-=(Length other) {
    nm -= other.nm;
    return *this;
  }
  friend constexpr Length operator+(Length a, Length b) { return {a.nm + b.nm}; }
  friend constexpr Length operator-(Length a, Length b) { return {a.nm - b.nm}; }
  friend constexpr Length operator*(Length a, std::int64_t times) { return {a.nm * times}; }
  friend constexpr Length operator*(std::int64_t times, Length a) { return {a.nm * times}; }
  // Division truncates towards zero to a whole nanometre.
  friend constexpr Length operator/(Length a, std::int64_t parts) { return {a.nm / parts}; }
};

inline constexpr std::int64_t nm_per_mm = 1'000'000;
inline constexpr std::int64_t nm_per_inch = 25'400'000;

// `whole numerator/denominator` inches, exact when the denominator divides 25 400 000 x numerator.
constexpr Length inches(std::int64_t whole, std::int64_t numerator = 0,
                        std::int64_t denominator = 1) {
  return {whole * nm_per_inch + numerator * nm_per_inch / denominator};
}
constexpr Length millimetres(std::int64_t whole) { return {whole * nm_per_mm}; }
constexpr Length micrometres(std::int64_t whole) { return {whole * 1000}; }
constexpr Length absolute(Length a) { return a.nm < 0 ? -a : a; }

// Only for drawing and for printed decimals; never feed the result back into a plan.
constexpr double in_mm(Length a) { return static_cast<double>(a.nm) / 1e6; }
constexpr double in_inches(Length a) { return static_cast<double>(a.nm) / 25.4e6; }
// PDF user space: 72 points to the inch (ISO 32000-1, 8.3.2.3).
constexpr double in_points(Length a) { return static_cast<double>(a.nm) * 72.0 / 25.4e6; }
// The nearest nanometre to a number of points.
constexpr Length points(double pt) {
  const double nm = pt * 25.4e6 / 72.0;
  return {static_cast<std::int64_t>(nm < 0 ? nm - 0.5 : nm + 0.5)};
}

// Only for drawing: a share of a length, its fraction of a nanometre dropped.
constexpr Length times(Length a, double factor) {
  return {static_cast<std::int64_t>(static_cast<double>(a.nm) * factor)};
}

} // namespace leafwright
