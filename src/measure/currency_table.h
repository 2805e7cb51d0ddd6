#pragma once

#include <span>
#include <string_view>

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

} // namespace leafwright
