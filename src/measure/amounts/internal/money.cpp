#include "measure/amounts/amounts.h"

#include "measure/index.h"
#include "measure/letters.h"
#include "measure/parse_length.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstddef>
#include <numeric>

namespace leafwright {
namespace {

// Source: ISO 4217 list one (currency, fund and precious-metal codes with their minor units), as
// published by its maintenance agency; state of 2026-01-01: euro in Bulgaria, XCG for ANG, ZWG for
// ZWL, XAD added.
constexpr CurrencyEntry currencies[] = {
    {"AED", 2},  {"AFN", 2},  {"ALL", 2},  {"AMD", 2},  {"AOA", 2},  {"ARS", 2},  {"AUD", 2},
    {"AWG", 2},  {"AZN", 2},  {"BAM", 2},  {"BBD", 2},  {"BDT", 2},  {"BHD", 3},  {"BIF", 0},
    {"BMD", 2},  {"BND", 2},  {"BOB", 2},  {"BOV", 2},  {"BRL", 2},  {"BSD", 2},  {"BTN", 2},
    {"BWP", 2},  {"BYN", 2},  {"BZD", 2},  {"CAD", 2},  {"CDF", 2},  {"CHE", 2},  {"CHF", 2},
    {"CHW", 2},  {"CLF", 4},  {"CLP", 0},  {"CNY", 2},  {"COP", 2},  {"COU", 2},  {"CRC", 2},
    {"CUP", 2},  {"CVE", 2},  {"CZK", 2},  {"DJF", 0},  {"DKK", 2},  {"DOP", 2},  {"DZD", 2},
    {"EGP", 2},  {"ERN", 2},  {"ETB", 2},  {"EUR", 2},  {"FJD", 2},  {"FKP", 2},  {"GBP", 2},
    {"GEL", 2},  {"GHS", 2},  {"GIP", 2},  {"GMD", 2},  {"GNF", 0},  {"GTQ", 2},  {"GYD", 2},
    {"HKD", 2},  {"HNL", 2},  {"HTG", 2},  {"HUF", 2},  {"IDR", 2},  {"ILS", 2},  {"INR", 2},
    {"IQD", 3},  {"IRR", 2},  {"ISK", 0},  {"JMD", 2},  {"JOD", 3},  {"JPY", 0},  {"KES", 2},
    {"KGS", 2},  {"KHR", 2},  {"KMF", 0},  {"KPW", 2},  {"KRW", 0},  {"KWD", 3},  {"KYD", 2},
    {"KZT", 2},  {"LAK", 2},  {"LBP", 2},  {"LKR", 2},  {"LRD", 2},  {"LSL", 2},  {"LYD", 3},
    {"MAD", 2},  {"MDL", 2},  {"MGA", 2},  {"MKD", 2},  {"MMK", 2},  {"MNT", 2},  {"MOP", 2},
    {"MRU", 2},  {"MUR", 2},  {"MVR", 2},  {"MWK", 2},  {"MXN", 2},  {"MXV", 2},  {"MYR", 2},
    {"MZN", 2},  {"NAD", 2},  {"NGN", 2},  {"NIO", 2},  {"NOK", 2},  {"NPR", 2},  {"NZD", 2},
    {"OMR", 3},  {"PAB", 2},  {"PEN", 2},  {"PGK", 2},  {"PHP", 2},  {"PKR", 2},  {"PLN", 2},
    {"PYG", 0},  {"QAR", 2},  {"RON", 2},  {"RSD", 2},  {"RUB", 2},  {"RWF", 0},  {"SAR", 2},
    {"SBD", 2},  {"SCR", 2},  {"SDG", 2},  {"SEK", 2},  {"SGD", 2},  {"SHP", 2},  {"SLE", 2},
    {"SOS", 2},  {"SRD", 2},  {"SSP", 2},  {"STN", 2},  {"SVC", 2},  {"SYP", 2},  {"SZL", 2},
    {"THB", 2},  {"TJS", 2},  {"TMT", 2},  {"TND", 3},  {"TOP", 2},  {"TRY", 2},  {"TTD", 2},
    {"TWD", 2},  {"TZS", 2},  {"UAH", 2},  {"UGX", 0},  {"USD", 2},  {"USN", 2},  {"UYI", 0},
    {"UYU", 2},  {"UYW", 4},  {"UZS", 2},  {"VED", 2},  {"VES", 2},  {"VND", 0},  {"VUV", 0},
    {"WST", 2},  {"XAD", 2},  {"XAF", 0},  {"XAG", -1}, {"XAU", -1}, {"XBA", -1}, {"XBB", -1},
    {"XBC", -1}, {"XBD", -1}, {"XCD", 2},  {"XCG", 2},  {"XDR", -1}, {"XOF", 0},  {"XPD", -1},
    {"XPF", 0},  {"XPT", -1}, {"XSU", -1}, {"XTS", -1}, {"XUA", -1}, {"XXX", -1}, {"YER", 2},
    {"ZAR", 2},  {"ZMW", 2},  {"ZWG", 2}};

constexpr std::array withdrawn = {
    WithdrawnCurrency{"ANG", "XCG"}, WithdrawnCurrency{"BGN", "EUR"},
    WithdrawnCurrency{"BYR", "BYN"}, WithdrawnCurrency{"CUC", "CUP"},
    WithdrawnCurrency{"EEK", "EUR"}, WithdrawnCurrency{"HRK", "EUR"},
    WithdrawnCurrency{"LTL", "EUR"}, WithdrawnCurrency{"LVL", "EUR"},
    WithdrawnCurrency{"MRO", "MRU"}, WithdrawnCurrency{"SLL", "SLE"},
    WithdrawnCurrency{"STD", "STN"}, WithdrawnCurrency{"VEF", "VES"},
    WithdrawnCurrency{"ZMK", "ZMW"}, WithdrawnCurrency{"ZWL", "ZWG"},
};

struct Symbol {
  std::string_view code;
  std::string_view text;
};
// Dollars other than the United States' carry their letters, and only Japan's yen is a bare ¥.
constexpr std::array symbols = {
    Symbol{"AUD", "A$"},  Symbol{"CAD", "CA$"}, Symbol{"EUR", "€"}, Symbol{"GBP", "£"},
    Symbol{"HKD", "HK$"}, Symbol{"INR", "₹"},   Symbol{"JPY", "¥"}, Symbol{"KRW", "₩"},
    Symbol{"NZD", "NZ$"}, Symbol{"USD", "$"},
};

} // namespace

std::span<const CurrencyEntry> currency_table() { return currencies; }

std::span<const WithdrawnCurrency> withdrawn_currencies() { return withdrawn; }

std::string_view currency_symbol(std::string_view code) {
  for (const Symbol& symbol : symbols) {
    if (symbol.code == code) return symbol.text;
  }
  return {};
}

namespace {

using detail::TextCursor;

constexpr std::string_view a_currency = "a currency code of ISO 4217, such as USD, EUR or GBP";
constexpr std::int64_t largest_minor = 10'000'000'000'000; // sums of a million of them fit

// At most three letters, whatever the array holds.
std::string_view code_of(const Currency& currency) {
  const std::string_view all(currency.code, 3);
  return all.substr(0, all.find('\0'));
}

std::int64_t power_of_ten(int exponent) {
  std::int64_t result = 1;
  for (int i = 0; i < exponent; ++i) result *= 10;
  return result;
}

std::string upper(std::string_view text) {
  std::string result(text);
  for (char& c : result) {
    if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
  }
  return result;
}

// 1234567 as "1,234,567".
std::string grouped(std::uint64_t value) {
  const std::string digits = fmt::format("{}", value);
  std::string marked;
  for (std::size_t i = 0; i < digits.size(); ++i) {
    if (i > 0 && (digits.size() - i) % 3 == 0) marked += ',';
    marked += digits[i];
  }
  return marked;
}

} // namespace

Parsed<Currency> parse_currency(std::string_view code) {
  TextCursor cursor(code);
  cursor.skip_blanks();
  const std::size_t from = cursor.at();
  const std::size_t to = cursor.done() ? from : detail::end_of_word(code, from);
  cursor.go_to(to);
  cursor.skip_blanks();
  if (!cursor.done() || to - from != 3) {
    return detail::parse_error(code, from, cursor.done() ? to : code.size(), a_currency,
                               "write the three capital letters of the currency");
  }
  const std::string_view word = code.substr(from, 3);
  for (const CurrencyEntry& entry : currency_table()) {
    if (entry.code != word) continue;
    if (entry.exponent < 0) {
      return detail::parse_error(code, from, to, a_currency,
                                 "this code stands for no money that one pays with");
    }
    Currency currency;
    std::copy(word.begin(), word.end(), currency.code);
    currency.exponent = entry.exponent;
    return currency;
  }
  std::string fix = "write the three capital letters of the currency";
  const std::string capitals = upper(word);
  for (const WithdrawnCurrency& old : withdrawn_currencies()) {
    if (old.code == capitals)
      fix = fmt::format("{} was withdrawn; use {}", old.code, old.successor);
  }
  for (const CurrencyEntry& entry : currency_table()) {
    if (entry.code == capitals) fix = fmt::format("write it in capitals: {}", capitals);
  }
  return detail::parse_error(code, from, to, a_currency, std::move(fix));
}

Parsed<Money> parse_money(std::string_view text, const Currency& currency) {
  const std::string_view code = code_of(currency);
  const std::string expected =
      currency.exponent == 0
          ? fmt::format("an amount in {} such as 1250", code)
          : fmt::format("an amount in {} such as 12.{:0{}}", code,
                        5 * power_of_ten(currency.exponent - 1), currency.exponent);
  TextCursor cursor(text);
  cursor.skip_blanks();
  if (detail::is_minus(cursor.peek())) {
    return detail::misread_word(text, cursor.at(), expected,
                                "an amount cannot be negative; leave the minus sign away");
  }
  const std::string_view symbol = currency_symbol(code);
  if (!symbol.empty() && cursor.rest().starts_with(symbol)) {
    cursor.go_to(cursor.at() + symbol.size());
    cursor.skip_blanks();
  }
  const auto number = detail::read_number(cursor, expected);
  if (!number) return number.parse_error();
  const std::size_t from = number.value().at;
  const std::size_t to = from + number.value().length;
  const std::string_view written = text.substr(from, to - from);
  const std::size_t point = written.find('.');
  if (written.find_first_not_of("0123456789.") != std::string_view::npos) {
    return detail::parse_error(text, from, to, expected, "write an amount with a decimal point");
  }
  const std::size_t places = point == std::string_view::npos ? 0 : written.size() - point - 1;
  if (places > as_index(std::max(currency.exponent, 0))) {
    return detail::parse_error(
        text, from, to, expected,
        currency.exponent <= 0 ? fmt::format("{} has no smaller unit; write a whole number", code)
                               : fmt::format("{} has {} decimals", code, currency.exponent));
  }
  cursor.skip_blanks();
  if (cursor.rest().starts_with(code)) {
    cursor.go_to(cursor.at() + code.size());
    cursor.skip_blanks();
  }
  if (!cursor.done()) {
    return detail::misread_word(
        text, cursor.at(), expected,
        fmt::format("write the amount alone; the project counts in {}", code));
  }
  const auto minor = detail::times_exactly(*number, power_of_ten(std::max(currency.exponent, 0)));
  if (!minor || *minor > largest_minor) {
    return detail::parse_error(text, from, to, expected,
                               "this amount is too large; check for digits too many");
  }
  return Money{*minor, currency};
}

std::string money_text(const Money& money) {
  const bool negative = money.minor < 0;
  // The negative of the least int64 is out of its range, not out of uint64's.
  const std::uint64_t size = negative ? 0 - static_cast<std::uint64_t>(money.minor)
                                      : static_cast<std::uint64_t>(money.minor);
  const int exponent = std::clamp(money.currency.exponent, 0, 4);
  const auto unit = static_cast<std::uint64_t>(power_of_ten(exponent));
  std::string number = grouped(size / unit);
  if (exponent > 0) number += fmt::format(".{:0{}}", size % unit, exponent);
  const std::string_view sign = negative ? "−" : "";
  const std::string_view code = code_of(money.currency);
  const std::string_view symbol = currency_symbol(code);
  return symbol.empty() ? fmt::format("{}{}\u00A0{}", sign, number, code)
                        : fmt::format("{}{}{}", sign, symbol, number);
}

std::vector<Money> share_out(const Money& whole, const std::vector<std::int64_t>& weights) {
  using detail::Wide;
  const auto weight = [&](std::size_t i) -> Wide { return std::max<std::int64_t>(weights[i], 0); };
  Wide total = 0;
  for (std::size_t i = 0; i < weights.size(); ++i) total += weight(i);
  const bool equal = total == 0;
  if (equal) total = static_cast<Wide>(weights.size());

  const Wide sign = whole.minor < 0 ? -1 : 1;
  const Wide amount = sign * whole.minor;
  std::vector<Wide> parts(weights.size());
  std::vector<Wide> remainders(weights.size());
  Wide spare = amount;
  for (std::size_t i = 0; i < weights.size(); ++i) {
    // amount < 2^64 and weight < 2^63: their product fits.
    const Wide product = amount * (equal ? 1 : weight(i));
    parts[i] = product / total;
    remainders[i] = product % total;
    spare -= parts[i];
  }
  std::vector<std::size_t> order(weights.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return remainders[a] > remainders[b]; });
  for (const std::size_t i : order) {
    if (spare == 0) break;
    ++parts[i];
    --spare;
  }
  std::vector<Money> result;
  result.reserve(parts.size());
  for (const Wide part : parts) {
    result.push_back({static_cast<std::int64_t>(sign * part), whole.currency});
  }
  return result;
}

} // namespace leafwright
