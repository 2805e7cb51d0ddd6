#include "measure/letters.h"
#include "measure/parse_length.h"
#include "read/expression.h"

#include <cstdint>

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

bool is_name_start(char32_t c) {
  if (detail::is_ascii_letter(c) || c == U'_') return true;
  const bool letter = (c >= 0xC0 && c < 0x2000) || (c >= 0x2C00 && c < detail::end_of_text);
  return letter && c != U'×' && c != U'÷';
}

std::optional<Span> side_parting(std::string_view text) {
  int depth = 0;
  bool operand = false; // whether a side may end here
  for (std::size_t i = 0; i < text.size();) {
    const char c = text[i];
    if (c == '(') ++depth;
    if (c == ')') --depth;
    if (text.substr(i).starts_with("×")) {
      if (depth == 0) return Span{i, i + 2};
      i += 2;
      continue;
    }
    const bool letter = detail::is_ascii_letter(static_cast<unsigned char>(c)) || c == '_';
    if (letter) {
      std::size_t end = i;
      while (end < text.size() && (detail::is_ascii_letter(static_cast<unsigned char>(text[end])) ||
                                   (text[end] >= '0' && text[end] <= '9') || text[end] == '_' ||
                                   text[end] == '-' || text[end] == '.' || text[end] == '/'))
        ++end;
      const bool is_x =
          (c == 'x' || c == 'X') &&
          (end == i + 1 || (text[i + 1] >= '0' && text[i + 1] <= '9') || text[i + 1] == '.');
      const bool alone = i > 0 && text[i - 1] == ' ' && end < text.size() && text[end] == ' ';
      if (is_x && (operand || alone) && depth == 0) return Span{i, i + 1};
      operand = true;
      i = end;
      continue;
    }
    if (!detail::is_blank(static_cast<unsigned char>(c)))
      operand = std::string_view("+-*/(,").find(c) == std::string_view::npos;
    ++i;
  }
  return std::nullopt;
}

bool looks_like_calculation(std::string_view text) {
  if (text.find_first_of("+*()") != std::string_view::npos) return true;
  for (const std::string_view sign : {"×", "÷", "−", " - ", " / "})
    if (text.find(sign) != std::string_view::npos) return true;
  detail::TextCursor cursor(text);
  while (!cursor.done()) {
    if (!is_name_start(cursor.peek())) {
      cursor.advance();
      continue;
    }
    const std::size_t from = cursor.at();
    while (is_name_start(cursor.peek())) cursor.advance();
    const std::string_view word = text.substr(from, cursor.at() - from);
    const bool unit = is_length_unit(word);
    if (!unit && cursor.peek() == U'.') return true;
    if (!unit && from == 0) return true;
  }
  return false;
}

} // namespace leafwright::reading
