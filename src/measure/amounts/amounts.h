#pragma once

#include "basics/parsed.h"
#include "measure/length.h"

#include <fmt/format.h>

#include <chrono>
#include <compare>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

// Money, masses and dates: exact, read from text and printed.
//
//   const Parsed<Money> price = parse_money("$12.50", usd);   // 1250 minor units
//   money_text(*price * 3);                                   // "$37.50"

namespace leafwright {

struct CurrencyEntry {
  std::string_view code;
  int exponent; // -1 where the standard gives no minor unit: metals, funds, tests, "no currency"
};
// Sorted by code, as in force on 1 January 2026.
std::span<const CurrencyEntry> currency_table();

struct WithdrawnCurrency {
  std::string_view code;
  std::string_view successor;
};
// Codes taken out of list one in recent years, for a better answer than "unknown".
std::span<const WithdrawnCurrency> withdrawn_currencies();

// "$", "€" and the like for the few currencies whose sign is unmistakable; empty for the others.
std::string_view currency_symbol(std::string_view code);

// ISO 4217 code and its minor-unit exponent (2 for USD, 0 for JPY, 3 for KWD).
struct Currency {
  char code[4] = "USD";
  int exponent = 2;
  friend constexpr bool operator==(const Currency&, const Currency&) = default;
};
// Three capital letters. Codes without a minor unit (metals, "no currency") are refused, and
// withdrawn ones with the code that took their place.
Parsed<Currency> parse_currency(std::string_view code);

// An amount in minor units. Adding amounts of two currencies is refused where a project is read;
// arithmetic here asserts nothing and keeps the left side's currency.
struct Money {
  std::int64_t minor = 0;
  Currency currency;
  friend constexpr bool operator==(const Money&, const Money&) = default;
  friend Money operator+(Money a, const Money& b) {
    a.minor += b.minor;
    return a;
  }
  friend Money operator-(Money a, const Money& b) {
    a.minor -= b.minor;
    return a;
  }
  friend Money operator*(Money a, std::int64_t times) {
    a.minor *= times;
    return a;
  }
};
// `12.50`, `12`, `1250.00`; no thousands mark, no more decimals than the currency has, not
// negative. The currency's own sign in front or code behind is allowed (`$12.50`, `12.50 USD`).
Parsed<Money> parse_money(std::string_view text, const Currency& currency);
std::string money_text(const Money& money); // "$12.50", "€12.50", "12.50 SEK", "¥1,250"; "−$3.00"

// Splits `whole` in proportion to `weights` so that the parts sum to it exactly: the largest
// remainders get the spare minor units, earlier parts first among equals. All weights >= 0; when
// all are nil the parts are equal.
std::vector<Money> share_out(const Money& whole, const std::vector<std::int64_t>& weights);

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
// Cover 20 x 26 in, text and book 25 x 38, bond 17 x 22, index 25.5 x 30.5.
Size basic_size(Grade grade);
// `80 lb cover`, `20 lb bond`, `216 gsm`, `216 g/m²`, `216 g/m2`.
Parsed<Grammage> parse_grammage(std::string_view text);
std::string grammage_text(Grammage grammage); // "216 g/m²"
Mass mass_of(Area area, Grammage grammage);   // nearest mg

// A day of the calendar.
using Date = std::chrono::year_month_day;

struct StatedDate {
  Date date{};
  std::optional<std::chrono::weekday> stated; // "Tue 2027-03-02": checked by a rule, not here
};
// ISO 8601 calendar date `2027-03-02`, optionally after an English weekday (`Tue`, `Tuesday`);
// from 1900 on.
Parsed<StatedDate> parse_date(std::string_view text);
std::string iso_text(Date date); // "2027-03-02"; language/english.h says it in words
std::string_view weekday_name(std::chrono::weekday day);

} // namespace leafwright

template <>
struct fmt::formatter<leafwright::Money> : fmt::formatter<std::string_view> {
  template <class Context>
  auto format(const leafwright::Money& money, Context& context) const {
    return fmt::formatter<std::string_view>::format(leafwright::money_text(money), context);
  }
};
