#include "measure/parse_length.h"

#include <fmt/format.h>

#include <array>
#include <limits>
#include <string>

namespace leafwright::detail {

std::string decimal_text(std::int64_t count, int places) {
  std::int64_t unit = 1;
  for (int i = 0; i < places; ++i) unit *= 10;
  if (count % unit == 0) return fmt::format("{}", count / unit);
  std::string text = fmt::format("{}.{:0{}}", count / unit, count % unit, places);
  while (text.back() == '0') text.pop_back();
  return text;
}

namespace {

constexpr std::int64_t largest_whole = 1'000'000'000'000;
constexpr int most_decimals = 18; // 10^18 is the last power of ten below 2^63

struct SetFraction {
  char32_t letter;
  std::int64_t numerator;
  std::int64_t denominator;
};
// The fractions that Unicode has as one character (Latin-1 and Number Forms).
constexpr std::array set_fractions = {
    SetFraction{U'¼', 1, 4}, SetFraction{U'½', 1, 2}, SetFraction{U'¾', 3, 4},
    SetFraction{U'⅐', 1, 7}, SetFraction{U'⅑', 1, 9}, SetFraction{U'⅒', 1, 10},
    SetFraction{U'⅓', 1, 3}, SetFraction{U'⅔', 2, 3}, SetFraction{U'⅕', 1, 5},
    SetFraction{U'⅖', 2, 5}, SetFraction{U'⅗', 3, 5}, SetFraction{U'⅘', 4, 5},
    SetFraction{U'⅙', 1, 6}, SetFraction{U'⅚', 5, 6}, SetFraction{U'⅛', 1, 8},
    SetFraction{U'⅜', 3, 8}, SetFraction{U'⅝', 5, 8}, SetFraction{U'⅞', 7, 8},
};

const SetFraction* set_fraction(char32_t c) {
  for (const SetFraction& one : set_fractions) {
    if (one.letter == c) return &one;
  }
  return nullptr;
}

constexpr bool is_slash(char32_t c) { return c == U'/' || c == U'\u2044' || c == U'\u2215'; }

// Joins a whole number and its fraction, `4-1/4`. The minus sign U+2212 does not: it subtracts.
constexpr bool is_joint(char32_t c) {
  return c == U'-' || c == U'\u2010' || c == U'\u2011' || c == U'\u2013';
}

// Digits at the cursor, however many. A number above `largest_whole` comes back as some number
// above it.
std::int64_t take_digits(TextCursor& cursor) {
  std::int64_t value = 0;
  for (char32_t c = cursor.peek(); is_digit(c); c = cursor.peek()) {
    if (value <= largest_whole) value = value * 10 + static_cast<std::int64_t>(c - U'0');
    cursor.advance();
  }
  return value;
}

// The rest of a run of digits, points, commas, slashes, signs and single blanks: what a reader
// takes for one number gone wrong, as in "4 1 4" or "1.2.3".
std::size_t end_of_numbers(const TextCursor& from) {
  TextCursor cursor = from;
  std::size_t end = cursor.at();
  while (!cursor.done()) {
    const char32_t c = cursor.peek();
    if (is_digit(c) || c == U'.' || c == U',' || is_slash(c) || set_fraction(c) != nullptr) {
      cursor.advance();
      end = cursor.at();
    } else if (is_blank(c)) {
      cursor.advance();
    } else {
      break;
    }
  }
  return end;
}

class NumberReader {
 public:
  NumberReader(TextCursor& cursor, std::string_view expected)
      : cursor_(cursor), expected_(expected), start_(cursor.at()) {}

  Parsed<Number> read() {
    const char32_t first = cursor_.peek();
    if (first == end_of_text) {
      return parse_error(cursor_.text(), start_, start_, expected_, "write a number here");
    }
    const SetFraction* alone = set_fraction(first);
    const bool point_first = first == U'.' && digit_after_next();
    if (!is_digit(first) && alone == nullptr && !point_first) {
      return misread_word(cursor_.text(), start_, expected_,
                          "begin with a number, written with the digits 0 to 9");
    }
    if (is_digit(first)) number_.whole = take_digits(cursor_);
    if (number_.whole > largest_whole) return too_large();

    std::optional<ParseError> wrong;
    const char32_t c = cursor_.peek();
    if (c == U'.') {
      wrong = read_decimals();
    } else if (is_slash(c) && is_digit(first)) {
      wrong = read_denominator(number_.whole, start_);
      number_.whole = 0;
    } else if (set_fraction(c) != nullptr) {
      take_set_fraction();
    } else {
      wrong = read_mixed();
    }
    if (!wrong) wrong = refuse_what_follows();
    if (wrong) return *wrong;
    number_.at = start_;
    number_.length = cursor_.at() - start_;
    return number_;
  }

 private:
  bool digit_after_next() const {
    TextCursor ahead = cursor_;
    ahead.advance();
    return is_digit(ahead.peek());
  }

  ParseError run_misread(std::string fix) const {
    return parse_error(cursor_.text(), start_, end_of_numbers(cursor_), expected_, std::move(fix));
  }

  ParseError too_large() const {
    return parse_error(cursor_.text(), start_, cursor_.at(), expected_,
                       "this number is far too large for a card; check for digits too many");
  }

  std::optional<ParseError> read_decimals() {
    cursor_.advance(); // the point
    if (!is_digit(cursor_.peek())) {
      return run_misread("write at least one digit after the point, or leave the point away");
    }
    number_.decimal = true;
    int pending_zeros = 0; // zeros count only when another digit comes after them
    int places = 0;
    bool too_fine = false;
    for (char32_t c = cursor_.peek(); is_digit(c); c = cursor_.peek()) {
      cursor_.advance();
      if (c == U'0') {
        if (pending_zeros < most_decimals) ++pending_zeros;
        continue;
      }
      if (places + pending_zeros + 1 > most_decimals) {
        too_fine = true;
        continue;
      }
      for (; pending_zeros >= 0; --pending_zeros) {
        number_.numerator *= 10;
        number_.denominator *= 10;
        ++places;
      }
      pending_zeros = 0;
      number_.numerator += static_cast<std::int64_t>(c - U'0');
    }
    if (too_fine) {
      return parse_error(cursor_.text(), start_, cursor_.at(), expected_,
                         "these are more decimals than can be measured; round the number");
    }
    return std::nullopt;
  }

  // At the slash; the digits before it are read.
  std::optional<ParseError> read_denominator(std::int64_t numerator, std::size_t fraction_start) {
    cursor_.advance();
    if (!is_digit(cursor_.peek())) {
      return run_misread("a whole number must follow the slash, as in 1/4");
    }
    const std::int64_t denominator = take_digits(cursor_);
    if (denominator > largest_whole || numerator > largest_whole) return too_large();
    if (denominator == 0) {
      return parse_error(cursor_.text(), fraction_start, cursor_.at(), expected_,
                         "a fraction's lower number must be 1 or more");
    }
    number_.numerator = numerator;
    number_.denominator = denominator;
    return std::nullopt;
  }

  void take_set_fraction() {
    const SetFraction* fraction = set_fraction(cursor_.peek());
    number_.numerator = fraction->numerator;
    number_.denominator = fraction->denominator;
    cursor_.advance();
  }

  // Behind a whole number: a fraction after blanks or a hyphen, if there is one.
  std::optional<ParseError> read_mixed() {
    TextCursor ahead = cursor_;
    const bool blanks = ahead.skip_blanks();
    const bool joint = !blanks && is_joint(ahead.peek());
    if (joint) ahead.advance();
    if (!blanks && !joint) return std::nullopt;
    if (set_fraction(ahead.peek()) != nullptr) {
      cursor_ = ahead;
      take_set_fraction();
      return std::nullopt;
    }
    if (!is_digit(ahead.peek())) return std::nullopt;
    const std::size_t fraction_start = ahead.at();
    const std::int64_t numerator = take_digits(ahead);
    if (!is_slash(ahead.peek())) {
      cursor_ = ahead;
      return run_misread(joint ? "a fraction must follow the hyphen, as in 4-1/4; a range of "
                                 "measures cannot be given"
                               : "write a fraction with a slash, as in 4 1/4, or a decimal point, "
                                 "as in 4.25");
    }
    cursor_ = ahead;
    if (auto wrong = read_denominator(numerator, fraction_start)) return wrong;
    if (numerator >= number_.denominator) {
      return parse_error(
          cursor_.text(), start_, cursor_.at(), expected_,
          "after a whole number the fraction must be less than 1; write 17/4 or 4 1/4");
    }
    return std::nullopt;
  }

  // What may not stand behind a complete number.
  std::optional<ParseError> refuse_what_follows() {
    const char32_t c = cursor_.peek();
    TextCursor ahead = cursor_;
    ahead.advance();
    const char32_t next = ahead.peek();
    if (c == U',') {
      return run_misread(is_digit(next)
                             ? "write a decimal point, as in 4.25, and no mark between thousands"
                             : "leave the comma away");
    }
    if (c == U'.' || is_slash(c) || is_digit(c) || set_fraction(c) != nullptr) {
      return run_misread("write one number only: 4.25, 17/4 or 4 1/4");
    }
    if ((c == U'e' || c == U'E') && (is_digit(next) || next == U'+' || next == U'-')) {
      ahead.advance();
      take_digits(ahead);
      return parse_error(cursor_.text(), start_, ahead.at(), expected_,
                         "write the number out in full, without an exponent");
    }
    ahead = cursor_;
    if (ahead.skip_blanks() && (is_digit(ahead.peek()) || set_fraction(ahead.peek()) != nullptr)) {
      return run_misread("write one number only: 4.25, 17/4 or 4 1/4");
    }
    return std::nullopt;
  }

  TextCursor& cursor_;
  std::string_view expected_;
  std::size_t start_;
  Number number_;
};

// (whole + numerator/denominator) * scale as an upper and a lower number.
struct Scaled {
  Wide above;
  Wide below;
};
std::optional<Scaled> scaled(const Number& number, std::int64_t scale, std::int64_t divisor) {
  const Wide total = static_cast<Wide>(number.whole) * number.denominator + number.numerator;
  Scaled result{};
  if (__builtin_mul_overflow(total, static_cast<Wide>(scale), &result.above)) return std::nullopt;
  if (__builtin_mul_overflow(static_cast<Wide>(number.denominator), static_cast<Wide>(divisor),
                             &result.below)) {
    return std::nullopt;
  }
  return result;
}

std::optional<std::int64_t> narrowed(Wide value) {
  if (value > std::numeric_limits<std::int64_t>::max() || value < 0) return std::nullopt;
  return static_cast<std::int64_t>(value);
}

} // namespace

Parsed<Number> read_number(TextCursor& cursor, std::string_view expected) {
  return NumberReader(cursor, expected).read();
}

std::optional<std::int64_t> times_exactly(const Number& number, std::int64_t scale,
                                          std::int64_t divisor) {
  const auto product = scaled(number, scale, divisor);
  if (!product || product->above % product->below != 0) return std::nullopt;
  return narrowed(product->above / product->below);
}

std::optional<std::int64_t> times_nearest(const Number& number, std::int64_t scale,
                                          std::int64_t divisor) {
  const auto product = scaled(number, scale, divisor);
  if (!product) return std::nullopt;
  const Wide quotient = product->above / product->below;
  const Wide remainder = product->above % product->below;
  return narrowed(quotient + (remainder >= product->below - remainder ? 1 : 0));
}

} // namespace leafwright::detail
