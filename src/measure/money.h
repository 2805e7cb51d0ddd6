#pragma once

#include "measure/parsed.h"

#include <compare>
#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

// The codes of ISO 4217 list one, for the money parser and its tests.

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

} // namespace leafwright
