#include "read/expression.h"

#include "measure/letters.h"
#include "measure/parse_length.h"
#include "read/internal/resolver.h"

#include <fmt/format.h>

#include <algorithm>
#include <initializer_list>

// Expressions: + − × ÷ (also - * /), parentheses, half(…), min(…, …), max(…, …), numbers with or
// without a unit, and measures of things by name: mat.width, trees/mat.reveal.

namespace leafwright::reading {
namespace {

using detail::TextCursor;
using Kind = Quantity::Kind;

constexpr std::string_view expected_measure =
    "a measure, or a calculation such as base.width - 1/4 in";
constexpr int deepest = 32; // of parentheses

class Evaluator {
 public:
  Evaluator(Resolver& resolver, const Value& value, Span span, int card, Axis axis, bool* saw_size)
      : resolver_(resolver), value_(value), span_(span), card_(card), axis_(axis),
        saw_size_(saw_size), cursor_(value.view().substr(0, span.to)) {
    cursor_.go_to(span.from);
  }

  std::optional<Quantity> run(int depth = 0) {
    depth_ = depth;
    const auto result = terms();
    if (!result) return std::nullopt;
    cursor_.skip_blanks();
    if (!cursor_.done()) {
      const std::size_t from = cursor_.at();
      return fail({from, end_of_word(from)}, "a sign such as + or - between measures, or nothing");
    }
    return result;
  }

 private:
  std::size_t end_of_word(std::size_t from) const {
    return std::min(detail::end_of_word(value_.view(), from), span_.to);
  }

  std::optional<Quantity> fail(Span span, std::string fix,
                               std::string_view code = "read-expression", std::string found = {}) {
    resolver_.fail(value_, span, code, std::string(expected_measure), std::move(fix),
                   std::move(found));
    return std::nullopt;
  }

  std::optional<Quantity> terms() {
    auto left = factors();
    while (left) {
      cursor_.skip_blanks();
      const std::size_t at = cursor_.at();
      const bool plus = cursor_.peek() == U'+';
      if (!plus && !detail::is_minus(cursor_.peek())) return left;
      cursor_.advance();
      const auto right = factors();
      if (!right) return std::nullopt;
      left = add(*left, *right, plus, {at, cursor_.at()});
    }
    return left;
  }

  std::optional<Quantity> factors() {
    auto left = atom();
    while (left) {
      cursor_.skip_blanks();
      const char32_t sign = cursor_.peek();
      const bool times = sign == U'×' || sign == U'*' || sign == U'·';
      const bool divided = sign == U'÷' || sign == U'/';
      if (!times && !divided) return left;
      const std::size_t at = cursor_.at();
      cursor_.advance();
      const auto right = atom();
      if (!right) return std::nullopt;
      left = times ? multiply(*left, *right, {at, cursor_.at()})
                   : divide(*left, *right, {at, cursor_.at()});
    }
    return left;
  }

  std::optional<Quantity> atom() {
    cursor_.skip_blanks();
    const std::size_t at = cursor_.at();
    const char32_t c = cursor_.peek();
    if (c == detail::end_of_text) return fail({span_.to, span_.to}, "write a measure here");
    if (detail::is_minus(c)) {
      cursor_.advance();
      if (++depth_ > deepest) return fail({at, at + 1}, "leave out the signs not needed");
      auto inner = atom();
      --depth_;
      if (inner) inner->value = negated(inner->value);
      return inner;
    }
    if (c == U'(') return group(at, "(");
    if (is_name_start(c)) return name();
    return number();
  }

  // From behind an opening parenthesis up to its partner.
  std::optional<Span> inside() {
    const std::size_t from = cursor_.at();
    int open = 1;
    for (std::size_t i = from; i < span_.to; ++i) {
      const char c = value_.view()[i];
      if (c == '(') ++open;
      if (c == ')' && --open == 0) {
        cursor_.go_to(i + 1);
        return Span{from, i};
      }
    }
    return std::nullopt;
  }

  std::optional<Quantity> group(std::size_t at, std::string_view what) {
    cursor_.take(U'(');
    const auto span = inside();
    if (!span) return fail({at, at + what.size()}, "close the parenthesis with )");
    if (depth_ >= deepest) return fail({at, at + 1}, "use fewer parentheses inside each other");
    return Evaluator(resolver_, value_, *span, card_, axis_, saw_size_).run(depth_ + 1);
  }

  std::optional<Quantity> function(std::size_t at, std::string_view word) {
    if (word == "half") {
      const auto whole = group(at, word);
      if (!whole) return std::nullopt;
      const auto halved = quotient(whole->value, {2, 1});
      if (!halved) return too_large({at, cursor_.at()});
      return Quantity{whole->kind, *halved};
    }
    if (word != "min" && word != "max") {
      return fail({at, at + word.size()}, "the functions are half, min and max");
    }
    cursor_.take(U'(');
    const auto span = inside();
    if (!span) return fail({at, at + word.size()}, "close the parenthesis with )");
    if (depth_ >= deepest) return fail({at, at + 1}, "use fewer parentheses inside each other");
    std::optional<Quantity> best;
    for (const Span& part : split_outside(value_.view(), *span, ',')) {
      auto one = Evaluator(resolver_, value_, part, card_, axis_, saw_size_).run(depth_ + 1);
      if (!one) return std::nullopt;
      if (best && !alike(*best, *one, part)) return std::nullopt;
      const bool better =
          best && (word == "min" ? less(one->value, best->value) : less(best->value, one->value));
      if (!best || better) best = one;
    }
    return best;
  }

  // Brings two quantities to one kind; a bare number beside a length becomes one.
  bool alike(Quantity& a, Quantity& b, Span where) {
    if (a.kind == b.kind) return true;
    for (Quantity* one : {&a, &b}) {
      const Quantity& other = one == &a ? b : a;
      if (one->kind != Kind::Bare) continue;
      if (other.kind == Kind::Number) {
        one->kind = Kind::Number;
        return true;
      }
      const auto nm = product(one->value, {resolver_.unit().nm, 1});
      if (!nm) {
        too_large(where);
        return false;
      }
      *one = {Kind::Length, *nm};
      return true;
    }
    fail(where, "a length and a pure number cannot be added or compared; give the number a unit",
         "read-unit", fmt::format("{} and {}", kind_words(a), kind_words(b)));
    return false;
  }

  std::optional<Quantity> too_large(Span span) {
    return fail(span, "this number is far too large or too fine", "read-too-large");
  }

  std::optional<Quantity> add(Quantity a, Quantity b, bool plus, Span where) {
    if (!alike(a, b, where)) return std::nullopt;
    const auto value = sum(a.value, plus ? b.value : negated(b.value));
    if (!value) return too_large(where);
    return Quantity{a.kind, *value};
  }

  std::optional<Quantity> multiply(Quantity a, Quantity b, Span where) {
    if (a.kind == Kind::Length && b.kind == Kind::Length) {
      return fail(where, "a length times a length is an area; multiply by a plain number",
                  "read-unit", "a length × a length");
    }
    const auto value = product(a.value, b.value);
    if (!value) return too_large(where);
    return Quantity{std::max(a.kind, b.kind), *value};
  }

  std::optional<Quantity> divide(Quantity a, Quantity b, Span where) {
    if (b.value.above == 0) return fail(where, "do not divide by nothing", "read-unit");
    if (b.kind == Kind::Length && a.kind != Kind::Length) {
      return fail(where, "a number cannot be divided by a length; divide the length by the number",
                  "read-unit", "a number ÷ a length");
    }
    const auto value = quotient(a.value, b.value);
    if (!value) return too_large(where);
    if (b.kind == Kind::Length) return Quantity{Kind::Number, *value};
    return Quantity{std::max(a.kind, b.kind), *value};
  }

  std::optional<Quantity> number() {
    const std::size_t at = cursor_.at();
    const auto number = detail::read_number(cursor_, expected_measure);
    if (!number) {
      const ParseError& why = number.parse_error();
      return fail({why.at, why.at + why.length}, why.fix, "read-measure", why.found);
    }
    const auto& n = *number;
    auto value = fraction(static_cast<Wide>(n.whole) * n.denominator + n.numerator, n.denominator);
    if (!value) return too_large({at, cursor_.at()});
    TextCursor ahead = cursor_;
    ahead.skip_blanks();
    if (const LengthUnit* unit = take_length_unit(ahead)) {
      cursor_ = ahead;
      value = product(*value, {unit->nm, 1});
      if (!value) return too_large({at, cursor_.at()});
      return Quantity{Kind::Length, *value};
    }
    if (is_name_start(ahead.peek())) {
      const std::size_t from = ahead.at();
      return fail({from, end_of_word(from)}, fmt::format("a unit is {}; between a number and a "
                                                         "name write a sign such as * or -",
                                                         unit_symbols()));
    }
    return Quantity{Kind::Bare, *value};
  }

  Span take_word() {
    const std::size_t from = cursor_.at();
    while (!cursor_.done() && (is_name_start(cursor_.peek()) || detail::is_digit(cursor_.peek()) ||
                               (cursor_.peek() == U'-' && letter_after_hyphen())))
      cursor_.advance();
    return {from, cursor_.at()};
  }
  // `mat-2.width` has a hyphen in its name, `mat.width-2` has a minus behind it: a hyphen belongs
  // to the name when a letter or digit follows and a full stop is still to come before any blank.
  bool letter_after_hyphen() const {
    TextCursor ahead = cursor_;
    ahead.advance();
    return is_name_start(ahead.peek()) || (!in_property_ && detail::is_digit(ahead.peek()));
  }

  std::optional<Quantity> name() {
    const std::size_t at = cursor_.at();
    Span name = take_word();
    if (cursor_.peek() == U'(') return function(at, slice(value_.view(), name));
    if (cursor_.peek() == U'/') { // trees/mat.width
      TextCursor ahead = cursor_;
      ahead.advance();
      if (is_name_start(ahead.peek())) {
        cursor_ = ahead;
        name.to = take_word().to;
      }
    }
    Span property{cursor_.at(), cursor_.at()};
    if (cursor_.peek() == U'.') {
      cursor_.advance();
      in_property_ = true;
      property = take_word();
      in_property_ = false;
    }
    return resolver_.property(value_, name, property, card_, axis_, saw_size_);
  }

  Resolver& resolver_;
  const Value& value_;
  Span span_;
  int card_;
  Axis axis_;
  bool* saw_size_;
  TextCursor cursor_;
  int depth_ = 0;
  bool in_property_ = false;
};

} // namespace

std::optional<Quantity> Resolver::worth(const Value& value, Span span, int card, Axis axis,
                                        bool* saw_size) {
  return Evaluator(*this, value, span, card, axis, saw_size).run();
}

std::optional<Length> Resolver::length(const Value& value, Span span, int card, Axis axis) {
  const std::string_view text = slice(value.view(), span);
  const Parsed<Length> plain = parse_length(text, context_.unit);
  if (plain) return *plain;
  if (!looks_like_calculation(text)) {
    fail_parse(value, span, plain.parse_error(), "read-measure");
    return std::nullopt;
  }
  const auto result = worth(value, span, card, axis);
  if (!result) return std::nullopt;
  if (result->kind == Kind::Number) {
    fail(value, trimmed_span(value.view(), span), "read-unit", "a length",
         "this comes out as a pure number; multiply it by a length", "a number");
    return std::nullopt;
  }
  const auto length = as_length(*result, unit());
  if (!length)
    fail(value, trimmed_span(value.view(), span), "read-too-large", "a length up to 100 m",
         "check the calculation");
  return length;
}

std::optional<Length> Resolver::side(const Value& value, int card, Axis axis) {
  const std::string_view text = value.view();
  const Parsed<Size> plain = parse_size(text, context_.unit);
  if (plain) return along(*plain, axis);
  const auto cut = side_parting(text);
  if (!looks_like_calculation(text)) {
    fail_parse(value, {}, plain.parse_error(), "read-measure");
    return std::nullopt;
  }
  if (cut) {
    const Span span = axis == Axis::Width ? Span{0, cut->from} : Span{cut->to, text.size()};
    return length(value, span, card, axis);
  }
  bool saw_size = false; // one calculation for both sides: mat.size - 1/4
  const auto result = worth(value, {0, text.size()}, card, axis, &saw_size);
  if (!result) return std::nullopt;
  const auto length = saw_size ? as_length(*result, unit()) : std::nullopt;
  if (!length)
    fail(value, trimmed_span(text, {0, text.size()}), "read-measure", "width x height",
         "write both sides with an x between them, or a size such as mat.size - 1/4");
  return length;
}

} // namespace leafwright::reading
