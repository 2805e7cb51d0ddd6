#include "measure/print_length.h"

#include "measure/parse_length.h"

#include <fmt/format.h>

#include <cstdint>
#include <numeric>

namespace leafwright {
namespace {

Printing exact_printing(bool inch) {
  Printing how;
  how.unit = inch ? Unit::Inch : Unit::Millimetre;
  how.step = inch ? inches(0, 1, 64) : Length{1};
  return how;
}

bool in_sixty_fourths(Length a) { return prints_exactly(a, inches(0, 1, 64)); }

} // namespace

std::string exact_text(Length a) { return length_text(a, exact_printing(in_sixty_fourths(a))); }

std::string exact_text(Size a) {
  return size_text(a, exact_printing(in_sixty_fourths(a.width) && in_sixty_fourths(a.height)));
}

namespace {

constexpr std::string_view no_break_space = "\u00A0";
constexpr std::string_view about = "≈";

std::string_view unit_name(Unit unit) { return unit == Unit::Inch ? "in" : "mm"; }

struct Printed {
  std::string digits; // without sign and ≈
  bool exact = true;
};

// Halves to 64ths as a fraction; other steps, such as 1/10 in, as decimals of an inch.
Printed inch_digits(std::int64_t nm) {
  const std::int64_t whole = nm / nm_per_inch;
  const std::int64_t rest = nm % nm_per_inch;
  if (rest == 0) return {fmt::format("{}", whole)};
  const std::int64_t common = std::gcd(rest, nm_per_inch);
  const std::int64_t numerator = rest / common;
  const std::int64_t denominator = nm_per_inch / common;
  const bool on_a_ruler = denominator <= 64 && (denominator & (denominator - 1)) == 0;
  if (on_a_ruler) {
    if (whole == 0) return {fmt::format("{}/{}", numerator, denominator)};
    return {fmt::format("{}{}{}/{}", whole, no_break_space, numerator, denominator)};
  }
  // Thousandths of an inch, the finest a caliper shows, unless five decimals are exact.
  constexpr std::int64_t nm_per_hundred_thousandth = nm_per_inch / 100'000;
  if (rest % nm_per_hundred_thousandth == 0) {
    return {detail::decimal_text(whole * 100'000 + rest / nm_per_hundred_thousandth, 5)};
  }
  constexpr std::int64_t nm_per_thousandth = nm_per_inch / 1000;
  const std::int64_t thousandths = (rest + nm_per_thousandth / 2) / nm_per_thousandth;
  return {detail::decimal_text(whole * 1000 + thousandths, 3), false};
}

Printed digits_of(Length a, Unit unit) {
  const Length size = absolute(a);
  if (unit == Unit::Inch) return inch_digits(size.nm);
  return {detail::decimal_text(size.nm, 6)}; // a nanometre is a millionth of a millimetre
}

struct Rounded {
  std::string number; // with a minus sign where needed, without ≈
  bool exact = true;
};

Rounded rounded(Length a, Unit unit, Length step) {
  const Length shown = nearest(a, step);
  const Printed printed = digits_of(shown, unit);
  return {fmt::format("{}{}", shown.nm < 0 ? "−" : "", printed.digits),
          printed.exact && shown == a};
}

std::string marked(const Rounded& one) {
  return one.exact ? one.number : std::string(about) + one.number;
}

std::string length_in(Length a, Unit unit, Length step) {
  return fmt::format("{}{}{}", marked(rounded(a, unit, step)), no_break_space, unit_name(unit));
}

std::string size_in(Size a, Unit unit, Length step, bool say_square) {
  const Rounded width = rounded(a.width, unit, step);
  const Rounded height = rounded(a.height, unit, step);
  if (say_square && width.number == height.number) {
    const Rounded side{width.number, width.exact && height.exact};
    return fmt::format("{0}{1}{2}{1}square", marked(side), no_break_space, unit_name(unit));
  }
  // One ≈ in front stands for the whole size.
  const bool both = !width.exact && !height.exact;
  return fmt::format("{0}{1}×{1}{2}{1}{3}", marked(width), no_break_space,
                     both ? height.number : marked(height), unit_name(unit));
}

Unit other(Unit unit) { return unit == Unit::Inch ? Unit::Millimetre : Unit::Inch; }

// A step of half a millimetre cannot be read off an inch ruler, nor 1/16 in off a metric one.
Length other_step(const Printing& how) {
  const std::int64_t step = how.other_step.nm;
  if (how.unit == Unit::Millimetre) {
    const bool on_a_ruler = step > 0 && nm_per_inch % step == 0;
    return on_a_ruler ? how.other_step : inches(0, 1, 16);
  }
  const bool on_a_ruler = step > 0 && (nm_per_mm % step == 0 || step % nm_per_mm == 0);
  return on_a_ruler ? how.other_step : millimetres(1) / 2;
}

} // namespace

Length nearest(Length a, Length step) {
  if (step.nm <= 0) return a;
  const std::int64_t whole_steps = a.nm / step.nm;
  const std::int64_t rest = a.nm % step.nm; // has the sign of a
  const std::int64_t size = rest < 0 ? -rest : rest;
  const std::int64_t away = size >= step.nm - size ? (a.nm < 0 ? -1 : 1) : 0;
  return step * (whole_steps + away);
}

bool prints_exactly(Length a, Length step) { return nearest(a, step) == a; }

std::string number_text(Length a, const Printing& how) {
  return marked(rounded(a, how.unit, how.step));
}

std::string length_text(Length a, const Printing& how) { return length_in(a, how.unit, how.step); }

std::string size_text(Size a, const Printing& how, bool say_square) {
  return size_in(a, how.unit, how.step, say_square);
}

std::string other_size_text(Size a, const Printing& how) {
  return size_in(a, other(how.unit), other_step(how), false);
}

std::string unrounded(Length length, const Printing& how) {
  if (prints_exactly(length, how.step)) return length_text(length, how);
  return exact_text(length);
}

std::string unrounded(Size size, const Printing& how) {
  if (prints_exactly(size.width, how.step) && prints_exactly(size.height, how.step))
    return size_text(size, how);
  return exact_text(size);
}

} // namespace leafwright
