#pragma once

#include "measure/parsed.h"
#include "measure/shape.h"

#include <string>
#include <string_view>

namespace leafwright {

// A mass in milligrams.
struct Mass {
  std::int64_t mg = 0;
  friend constexpr auto operator<=>(Mass, Mass) = default; // NOLINT(modernize-use-nullptr)
  friend constexpr Mass operator+(Mass a, Mass b) { return {a.mg + b.mg}; }
  friend constexpr Mass operator*(Mass a, std::int64_t times) { return {a.mg * times}; }
  constexpr Mass& operator+=(Mass other) {
    mg += other.mg;
    return *this;
  }
};
// `12 g`, `0.5 kg`, `1.5 oz`, `1 lb` (international avoirdupois pound, 453.592 37 g).
Parsed<Mass> parse_mass(std::string_view text);
std::string mass_text(Mass mass); // "12 g", "1.25 kg"

// Mass per area in milligrams per square metre (ISO 536: grammage, printed in g/m²).
struct Grammage {
  std::int64_t mg_per_m2 = 0;
  friend constexpr auto operator<=>(Grammage, Grammage) = default; // NOLINT(modernize-use-nullptr)
};
// Basis weight is the mass in pounds of 500 sheets of the grade's basic size.
enum class Grade { Cover, Text, Bond, Index };
Size basic_size(
    Grade grade); // cover 20 x 26 in, text/book 25 x 38, bond 17 x 22, index 25.5 x 30.5
Grammage grammage_of(double pounds, Grade grade); // nearest mg/m²
// `80 lb cover`, `20 lb bond`, `216 gsm`, `216 g/m²`, `216 g/m2`.
Parsed<Grammage> parse_grammage(std::string_view text);
std::string grammage_text(Grammage grammage); // "216 g/m²"
Mass mass_of(Area area, Grammage grammage);   // nearest mg

} // namespace leafwright
