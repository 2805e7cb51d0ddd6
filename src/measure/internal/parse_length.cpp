#include "measure/parse_length.h"

#include "measure/letters.h"

#include <fmt/format.h>

#include <algorithm>
#include <initializer_list>
#include <optional>
#include <string>

namespace leafwright {
namespace {

using detail::Number;
using detail::TextCursor;

constexpr std::string_view a_length = "a length such as 4 1/4 in or 108 mm";
constexpr std::string_view a_size = "width x height, such as 4 1/4 x 5 1/2 in or 105 x 148 mm";
constexpr std::string_view an_angle = "an angle in degrees, clockwise, such as 90 or -7.5";
constexpr std::int64_t longest_nm = 100'000 * nm_per_mm; // 100 m

bool joins_word(char32_t c) {
  return detail::is_ascii_letter(c) || detail::is_digit(c) || c == U'_';
}

// Whether a word of letters goes on at `behind`.
bool goes_on(const detail::TextCursor& behind) {
  if (!joins_word(behind.peek())) return false;
  if (behind.peek() != U'x' && behind.peek() != U'X') return true;
  detail::TextCursor after = behind;
  after.advance();
  return detail::is_ascii_letter(after.peek()) || after.peek() == U'_';
}

bool is_times_letter(char32_t c) { return c == U'x' || c == U'X'; }

// `x`, `X` or `×`.
bool take_times(TextCursor& cursor) {
  if (!is_times_letter(cursor.peek()) && cursor.peek() != U'×') return false;
  cursor.advance();
  return true;
}

// What to say about text that stands where a unit might.
std::string unit_mend(const TextCursor& cursor) {
  const std::string_view rest = cursor.rest();
  const std::string_view word = rest.substr(0, detail::end_of_word(rest, 0));
  const auto is_one_of = [&](std::initializer_list<std::string_view> names) {
    return std::any_of(names.begin(), names.end(), [&](std::string_view name) {
      return detail::same_ignoring_case(word, name);
    });
  };
  if (word.starts_with('\'') || word.starts_with("′") || word.starts_with("’") ||
      is_one_of({"ft", "ft.", "foot", "feet"})) {
    return "write feet as inches: a foot is 12 in";
  }
  if (is_one_of({"m", "metre", "metres", "meter", "meters"})) {
    return "write metres as centimetres: a metre is 100 cm";
  }
  if (is_one_of({"pt", "point", "points", "px"})) {
    return "points and pixels are for screens and type; measure in " + unit_symbols();
  }
  if (detail::is_minus(cursor.peek()) || word.starts_with('+')) {
    return "give one measure; a range or a sum cannot stand here";
  }
  return "the unit may be " + unit_symbols() + ", or be left away; nothing may follow it";
}

struct Side {
  Number number;
  const LengthUnit* unit = nullptr; // as written
};

class LengthReader {
 public:
  LengthReader(std::string_view text, std::string_view expected)
      : cursor_(text), expected_(expected) {}

  TextCursor& cursor() { return cursor_; }

  // Whether there is a minus sign; a plus sign is passed over.
  Parsed<bool> read_sign(bool allowed) {
    cursor_.skip_blanks();
    const char32_t c = cursor_.peek();
    const bool minus = detail::is_minus(c);
    if (!minus && c != U'+') return false;
    const std::size_t from = cursor_.at();
    if (!allowed) {
      return detail::misread_word(cursor_.text(), from, expected_,
                                  minus ? "a measure of a piece cannot be negative; leave the "
                                          "minus sign away"
                                        : "leave the plus sign away");
    }
    cursor_.advance();
    cursor_.skip_blanks();
    return minus;
  }

  Parsed<Side> read_side() {
    cursor_.skip_blanks();
    const auto number = detail::read_number(cursor_, expected_);
    if (!number) return number.parse_error();
    cursor_.skip_blanks();
    return Side{*number, take_length_unit(cursor_)};
  }

  std::optional<ParseError> refuse_rest() {
    const bool blanks = cursor_.skip_blanks();
    if (cursor_.done()) return std::nullopt;
    const std::size_t from = cursor_.at();
    if (blanks && detail::is_digit(cursor_.peek())) {
      return detail::parse_error(cursor_.text(), from, cursor_.text().size(), expected_,
                                 "give one measure in one unit");
    }
    return detail::misread_word(cursor_.text(), from, expected_, unit_mend(cursor_));
  }

  Parsed<Length> length_of(const Side& side, const LengthUnit& unit) const {
    const Number& number = side.number;
    if (number.whole > longest_nm / unit.nm) return too_long(number);
    const auto nm = detail::times_exactly(number, unit.nm);
    if (!nm) return inexact(number, unit);
    if (*nm > longest_nm) return too_long(number);
    return Length{*nm};
  }

 private:
  ParseError too_long(const Number& number) const {
    return detail::parse_error(cursor_.text(), number.at, number.at + number.length, expected_,
                               "lengths up to 100 m can be given; check the number and its unit");
  }

  ParseError inexact(const Number& number, const LengthUnit& unit) const {
    std::string fix;
    if (number.decimal) {
      int places = 0; // down to a whole nanometre
      for (std::int64_t nm = unit.nm; nm % 10 == 0; nm /= 10) ++places;
      fix = fmt::format("round to {} decimals of {}", places, unit.name);
    } else {
      fix = unit.system == Unit::Inch
                ? "this fraction cannot be kept exactly; use halves, quarters, eighths, "
                  "sixteenths, thirty-seconds, sixty-fourths, or a decimal such as 0.333"
                : "this fraction cannot be kept exactly; use a decimal such as 33.3";
    }
    return detail::parse_error(cursor_.text(), number.at, number.at + number.length, expected_,
                               std::move(fix));
  }

  TextCursor cursor_;
  std::string_view expected_;
};

} // namespace

const LengthUnit& bare_unit(Unit bare) {
  const auto* found = std::ranges::find(length_units, bare, &LengthUnit::system);
  return found == length_units.end() ? length_units.front() : *found;
}

std::string unit_symbols() {
  std::string text;
  for (std::size_t i = 0; i < length_units.size(); ++i) {
    if (i > 0) text += i + 1 == length_units.size() ? " or " : ", ";
    text += length_units.at(i).spellings.front();
  }
  return text;
}

const LengthUnit* take_length_unit(detail::TextCursor& cursor) {
  const LengthUnit* best = nullptr;
  detail::TextCursor end = cursor;
  for (const LengthUnit& unit : length_units)
    for (const std::string_view spelling : unit.spellings) {
      if (spelling.empty() || !detail::starts_ignoring_case(cursor.rest(), spelling)) continue;
      detail::TextCursor behind = cursor;
      behind.go_to(cursor.at() + spelling.size());
      if (is_letter(spelling.front()) && goes_on(behind)) continue;
      if (best != nullptr && behind.at() <= end.at()) continue; // the longest one is meant
      best = &unit;
      end = behind;
    }
  cursor = end;
  return best;
}

bool is_length_unit(std::string_view word) {
  detail::TextCursor cursor(word);
  return take_length_unit(cursor) != nullptr && cursor.done();
}

Parsed<Length> parse_length(std::string_view text, Unit bare) {
  LengthReader reader(text, a_length);
  if (const auto sign = reader.read_sign(false); !sign) return sign.parse_error();
  const auto side = reader.read_side();
  if (!side) return side.parse_error();
  if (auto wrong = reader.refuse_rest()) return *wrong;
  return reader.length_of(*side, side.value().unit ? *side.value().unit : bare_unit(bare));
}

Parsed<Size> parse_size(std::string_view text, Unit bare) {
  LengthReader reader(text, a_size);
  TextCursor& cursor = reader.cursor();
  const auto read_side = [&]() -> Parsed<Side> {
    const auto sign = reader.read_sign(false);
    if (!sign) return sign.parse_error();
    return reader.read_side();
  };

  const auto first = read_side();
  if (!first) return first.parse_error();
  cursor.skip_blanks();
  const std::size_t between = cursor.at();
  if (!take_times(cursor)) {
    if (cursor.done()) {
      return detail::parse_error(text, between, between, a_size,
                                 "write both sides with an x between them");
    }
    return detail::misread_word(text, between, a_size, "write an x or × between width and height");
  }
  const auto second = read_side();
  if (!second) return second.parse_error();
  if (auto wrong = reader.refuse_rest()) {
    TextCursor rest = cursor;
    if (take_times(rest)) wrong->fix = "give two sides only: width x height";
    return *wrong;
  }

  const LengthUnit* unit = second.value().unit;
  if (first.value().unit && first.value().unit != unit) {
    return detail::parse_error(text, 0, text.size(), a_size,
                               "write the unit once, at the end, for both sides");
  }
  const LengthUnit& both = unit != nullptr ? *unit : bare_unit(bare);
  const auto width = reader.length_of(*first, both);
  if (!width) return width.parse_error();
  const auto height = reader.length_of(*second, both);
  if (!height) return height.parse_error();
  for (const Side& side : {*first, *second}) {
    if (side.number.whole == 0 && side.number.numerator == 0) {
      return detail::parse_error(text, side.number.at, side.number.at + side.number.length, a_size,
                                 "both sides must be more than 0");
    }
  }
  return Size{*width, *height};
}

Parsed<Angle> parse_angle(std::string_view text) {
  constexpr std::int64_t udeg_per_degree = 1'000'000;
  constexpr std::int64_t full_turn = 360 * udeg_per_degree;
  LengthReader reader(text, an_angle);
  TextCursor& cursor = reader.cursor();
  const auto minus = reader.read_sign(true);
  if (!minus) return minus.parse_error();
  const auto number = detail::read_number(cursor, an_angle);
  if (!number) return number.parse_error();
  cursor.skip_blanks();
  const std::size_t unit_at = cursor.at();
  for (const std::string_view spelling : {"degrees", "degree", "deg", "°"}) {
    if (detail::starts_ignoring_case(cursor.rest(), spelling)) {
      cursor.go_to(cursor.at() + spelling.size());
      break;
    }
  }
  cursor.skip_blanks();
  if (!cursor.done()) {
    const std::size_t from = detail::is_ascii_letter(cursor.peek()) ? unit_at : cursor.at();
    return detail::misread_word(text, from, an_angle,
                                "an angle is in degrees; write deg or ° or nothing behind it");
  }
  const std::size_t end = number.value().at + number.value().length;
  if (number.value().whole > 360) {
    return detail::parse_error(text, number.value().at, end, an_angle,
                               "turn by 360 degrees at most, either way");
  }
  const auto udeg = detail::times_exactly(*number, udeg_per_degree);
  if (!udeg) {
    return detail::parse_error(text, number.value().at, end, an_angle,
                               "round to six decimals of a degree");
  }
  if (*udeg > full_turn) {
    return detail::parse_error(text, number.value().at, end, an_angle,
                               "turn by 360 degrees at most, either way");
  }
  return Angle{*minus ? -*udeg : *udeg};
}

} // namespace leafwright
