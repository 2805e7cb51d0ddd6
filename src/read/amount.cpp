#include "measure/number.h"
#include "measure/parse_length.h"
#include "measure/text_cursor.h"
#include "read/position.h"
#include "read/tiers.h"

#include <algorithm>
#include <array>

namespace leafwright::reading {
namespace {

constexpr std::string_view expected_amount =
    "an amount: as needed, whole, 2 whole, 1/4 of a pack, 22 in, 20, 4 sheets, 2 of 6 x 12";

bool one_of(std::string_view word, std::initializer_list<std::string_view> words) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

} // namespace

Parsed<Amount> parse_amount(std::string_view text, Unit bare) {
  using Kind = Amount::Kind;
  const Span span = trimmed_span(text, {0, text.size()});
  const std::string_view words = slice(text, span);
  Amount amount;
  if (words == "as needed") return amount;
  if (one_of(words, {"whole", "a whole one", "a whole pack"})) {
    amount.kind = Kind::Whole;
    return amount;
  }
  detail::TextCursor cursor(words);
  const auto number = detail::read_number(cursor, expected_amount);
  if (!number) {
    Misread why = number.misread();
    why.at += span.from;
    return why;
  }
  const auto& n = *number;
  cursor.skip_blanks();
  const std::string_view rest = cursor.rest();
  const auto fault = [&](std::string mend) {
    return detail::misread(text, span.from, span.to, expected_amount, std::move(mend));
  };
  if (one_of(rest, {"in", "\"", "″", "mm", "cm", "inches", "inch"})) {
    const auto length = parse_length(words, bare);
    if (!length || (*length).nm <= 0) return fault("write a length of more than nothing");
    amount.kind = Kind::Length;
    amount.length = *length;
    return amount;
  }
  constexpr std::int64_t most = 1'000'000;
  const bool whole = n.numerator == 0 && n.whole >= 1 && n.whole <= most;
  if (one_of(rest, {"of a pack", "pack", "of a bolt", "bolt", "of a spool", "spool", "packs"})) {
    if (whole) {
      amount.kind = Kind::Whole;
      amount.count = static_cast<int>(n.whole);
      return amount;
    }
    if (n.whole != 0 || n.decimal || n.numerator < 1 || n.numerator >= n.denominator ||
        n.denominator > 1000)
      return fault("write the share as a fraction below 1, such as 1/4 of a pack");
    amount.kind = Kind::Share;
    amount.numerator = static_cast<int>(n.numerator);
    amount.denominator = static_cast<int>(n.denominator);
    return amount;
  }
  if (!whole) return fault("write a whole number, a length with its unit, or a share of a pack");
  amount.count = static_cast<int>(n.whole);
  if (rest == "whole") {
    amount.kind = Kind::Whole;
    return amount;
  }
  if (rest.empty() || one_of(rest, {"pieces", "piece", "sheets", "sheet"})) {
    amount.kind = Kind::Count;
    return amount;
  }
  if (rest.starts_with("of ")) {
    const auto size = parse_size(rest.substr(3), bare);
    if (size && (*size).width.nm > 0 && (*size).height.nm > 0) {
      amount.kind = Kind::Sheets;
      amount.piece = *size;
      return amount;
    }
  }
  return fault("write it as one of these");
}

} // namespace leafwright::reading
