#include "measure/money.h"

#include "measure/currency_table.h"
#include "measure/index.h"
#include "measure/number.h"
#include "measure/text_cursor.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <numeric>

namespace leafwright {
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
    return detail::misread(code, from, cursor.done() ? to : code.size(), a_currency,
                           "write the three capital letters of the currency");
  }
  const std::string_view word = code.substr(from, 3);
  for (const CurrencyEntry& entry : currency_table()) {
    if (entry.code != word) continue;
    if (entry.exponent < 0) {
      return detail::misread(code, from, to, a_currency,
                             "this code stands for no money that one pays with");
    }
    Currency currency;
    std::copy(word.begin(), word.end(), currency.code);
    currency.exponent = entry.exponent;
    return currency;
  }
  std::string mend = "write the three capital letters of the currency";
  const std::string capitals = upper(word);
  for (const WithdrawnCurrency& old : withdrawn_currencies()) {
    if (old.code == capitals)
      mend = fmt::format("{} was withdrawn; use {}", old.code, old.successor);
  }
  for (const CurrencyEntry& entry : currency_table()) {
    if (entry.code == capitals) mend = fmt::format("write it in capitals: {}", capitals);
  }
  return detail::misread(code, from, to, a_currency, std::move(mend));
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
  if (!number) return number.misread();
  const std::size_t from = number.value().at;
  const std::size_t to = from + number.value().length;
  const std::string_view written = text.substr(from, to - from);
  const std::size_t point = written.find('.');
  if (written.find_first_not_of("0123456789.") != std::string_view::npos) {
    return detail::misread(text, from, to, expected, "write an amount with a decimal point");
  }
  const std::size_t places = point == std::string_view::npos ? 0 : written.size() - point - 1;
  if (places > as_index(std::max(currency.exponent, 0))) {
    return detail::misread(text, from, to, expected,
                           currency.exponent <= 0
                               ? fmt::format("{} has no smaller unit; write a whole number", code)
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
    return detail::misread(text, from, to, expected,
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
