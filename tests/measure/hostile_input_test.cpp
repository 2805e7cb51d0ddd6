#include "show.h"

#include "measure/amounts/amounts.h"
#include "measure/letters.h"
#include "measure/parse_length.h"

#include <array>
#include <functional>
#include <random>
#include <string>
#include <string_view>
#include <vector>

using namespace leafwright;

namespace {

// What a parser made of a text: nothing when it was accepted.
using Attempt = std::function<std::optional<ParseError>(std::string_view)>;

template <class T>
std::optional<ParseError> outcome(const Parsed<T>& parsed) {
  if (parsed) return std::nullopt;
  return parsed.parse_error();
}

const std::vector<Attempt>& all_parsers() {
  static const std::vector<Attempt> parsers = {
      [](std::string_view text) { return outcome(parse_length(text, Unit::Inch)); },
      [](std::string_view text) { return outcome(parse_length(text, Unit::Millimetre)); },
      [](std::string_view text) { return outcome(parse_size(text, Unit::Inch)); },
      [](std::string_view text) { return outcome(parse_angle(text)); },
      [](std::string_view text) { return outcome(parse_mass(text)); },
      [](std::string_view text) { return outcome(parse_grammage(text)); },
      [](std::string_view text) { return outcome(parse_money(text, Currency{})); },
      [](std::string_view text) {
        return outcome(parse_money(text, Currency{"JPY", 0}));
      },
      [](std::string_view text) { return outcome(parse_currency(text)); },
      [](std::string_view text) { return outcome(parse_date(text)); },
  };
  return parsers;
}

bool valid_utf8(std::string_view text) {
  detail::TextCursor cursor(text);
  while (!cursor.done()) {
    if (cursor.peek() == detail::not_a_letter) return false;
    cursor.advance();
  }
  return true;
}

// Whether a finding can be made of it: a place within the text, and three short printable parts.
bool can_be_shown(const ParseError& why, std::string_view text) {
  constexpr std::size_t most_bytes_shown = 4 * 41;
  return why.at <= text.size() && why.length <= text.size() - why.at && !why.found.empty() &&
         why.found.size() <= most_bytes_shown && valid_utf8(why.found) && !why.expected.empty() &&
         !why.fix.empty();
}

void check_refused_by_all(std::string_view text) {
  for (const Attempt& parse : all_parsers()) {
    const auto why = parse(text);
    REQUIRE(why);
    CHECK(can_be_shown(*why, text));
  }
}

} // namespace

TEST_CASE("no parser accepts nothing, blanks, control characters or broken UTF-8") {
  using namespace std::string_view_literals;
  for (const std::string_view text :
       {""sv, " "sv, "\t\r\n"sv, "\0"sv, "4\0 in"sv, "4\0"sv, "\xFF"sv, "4\xFF"sv, "4 in\xC3"sv,
        "\xC0\xB4"sv, "4\xE2\x81"sv, "\xED\xA0\x80"sv, "\xF4\x90\x80\x80"sv,
        "\xEF\xBB\xBF"
        "4"sv,
        "4\x1B[31m"sv, "4\u202E in"sv}) {
    CAPTURE(text);
    check_refused_by_all(text);
  }
}

TEST_CASE("no parser accepts exponents, infinities, hexadecimal or a zero divisor") {
  for (const std::string_view text :
       {"1e400", "1e+400",    "1E5",  "1e-400 mm", "inf",   "nan",        "NaN(1)",
        "0x10",  "0x1p3 mm",  "1/0",  "0/0",       "4 1/0", "1/00000000", "1/0 in x 4 in",
        "4 1 4", "4 1 4 x 5", "%s%n", "1'000",     "1_000", "4;5",        "..",
        "1..2",  "-",         "--4",  "/",         "/4",    "4//4",       "1/-2",
        "1/+2",  ",5"}) {
    CAPTURE(text);
    check_refused_by_all(text);
  }
}

TEST_CASE("a million digits, zeros, blanks or signs are refused in few words") {
  constexpr std::size_t many = 1'000'000;
  const std::string digits(many, '9');
  for (const std::string& text :
       {digits, "1/" + digits, digits + "/" + digits, "4 1/" + digits, "4 " + digits + "/4",
        "0." + digits, digits + "." + digits, std::string(many, '-'), std::string(many, '.'),
        std::string(many, '/'), std::string(many, ' '), std::string(many, '\0'),
        std::string(many, 'x'), std::string(many, '\xFF'), "4 x " + digits, "1e" + digits,
        "4" + std::string(many, ' ') + "4"}) {
    check_refused_by_all(text);
  }
}

TEST_CASE("leading and trailing zeros by the thousand change nothing") {
  const std::string zeros(10'000, '0');
  CHECK(parse_length(zeros + "4." + "25" + zeros, Unit::Inch).value() == inches(4, 1, 4));
  CHECK(parse_length("4 " + zeros + "1/" + zeros + "4", Unit::Inch).value() == inches(4, 1, 4));
}

TEST_CASE("numbers about the limits of 64 bits never wrap round to something that is accepted") {
  for (const std::string_view text :
       {"9223372036854775807", "9223372036854775808", "18446744073709551615",
        "18446744073709551616", "18446744073709551620", "340282366920938463463374607431768211456",
        "1/18446744073709551617", "18446744073709551617/18446744073709551617",
        "4 1/18446744073709551620", "1000000000001"}) {
    CAPTURE(text);
    check_refused_by_all(text);
    CHECK_FALSE(parse_size(std::string(text) + " x 4", Unit::Inch).ok());
    CHECK_FALSE(parse_mass(std::string(text) + " g").ok());
    CHECK_FALSE(parse_grammage(std::string(text) + " lb cover").ok());
  }
}

TEST_CASE("whatever is typed, a misread points into the text and can be printed") {
  // Pieces that get a parser far into its grammar, strung together at random.
  constexpr std::array<std::string_view, 40> pieces = {
      "4",  "1/4",  "0",   "25",  ".",   ",",    "/",    " ",      "\u00A0", "-",
      "−",  "+",    "x",   "×",   "¼",   "⅓",    "in",   "\"",     "″",      "mm",
      "cm", "e",    "9e9", "deg", "°",   "lb",   "oz",   "cover",  "gsm",    "g/m²",
      "kg", "2027", "-03", "-02", "Tue", "\xFF", "\xC2", "\u2044", "$",      "USD"};
  std::mt19937 engine(20270302);
  int accepted = 0;
  for (int i = 0; i < 20'000; ++i) {
    std::string text;
    for (std::size_t left = 1 + engine() % 6; left > 0; --left) {
      text += pieces.at(engine() % pieces.size());
    }
    for (const Attempt& parse : all_parsers()) {
      const auto why = parse(text);
      if (!why) {
        ++accepted;
      } else if (!can_be_shown(*why, text)) {
        FAIL_CHECK(text);
      }
    }
  }
  CHECK(accepted > 100); // or the pieces were chosen badly and prove nothing
}

TEST_CASE("whatever bytes come, a misread points into the text and can be printed") {
  std::mt19937 engine(42);
  for (int i = 0; i < 20'000; ++i) {
    std::string text;
    for (std::size_t left = engine() % 12; left > 0; --left) {
      text += static_cast<char>(engine() % 256);
    }
    for (const Attempt& parse : all_parsers()) {
      const auto why = parse(text);
      if (why && !can_be_shown(*why, text)) FAIL_CHECK(text);
    }
  }
}
