#include "show.h"

#include "measure/parse_length.h"

#include <string>
#include <utility>

using namespace leafwright;
using leafwright::testing::refusal_of;
using leafwright::testing::value_of;

namespace {

Length inch_read(std::string_view text) { return value_of(parse_length(text, Unit::Inch)); }
Length mm_read(std::string_view text) { return value_of(parse_length(text, Unit::Millimetre)); }

} // namespace

TEST_CASE("every way to write four and a quarter inches reads the same") {
  for (std::string_view text : {"4 1/4",
                                "4-1/4",
                                "4¼",
                                "4 ¼",
                                "17/4",
                                "4.25",
                                "4.250",
                                "  4 1/4  ",
                                "4 1/4 in",
                                "4 1/4in",
                                "4-1/4\"",
                                "4¼″",
                                "4 1/4”",
                                "4.25 inches",
                                "17/4 inch",
                                "4 1/4 IN",
                                "04.25",
                                "4\u00A01/4\u00A0in",
                                "4 1\u20444",
                                "4\u20111/4",
                                "4 1/4 in.",
                                "4 1/4''",
                                "107.95 mm",
                                "10.795cm",
                                "10.795 centimetres",
                                "107.95 millimeters"}) {
    CAPTURE(text);
    CHECK(inch_read(text) == inches(4, 1, 4));
  }
}

TEST_CASE("each fraction that is one character is exact when the inch allows it") {
  const std::pair<std::string_view, Length> fractions[] = {
      {"½", inches(0, 1, 2)}, {"¼", inches(0, 1, 4)}, {"¾", inches(0, 3, 4)},
      {"⅛", inches(0, 1, 8)}, {"⅜", inches(0, 3, 8)}, {"⅝", inches(0, 5, 8)},
      {"⅞", inches(0, 7, 8)}, {"⅕", inches(0, 1, 5)}, {"⅒", inches(0, 1, 10)}};
  for (const auto& [text, length] : fractions) CHECK(inch_read(text) == length);
  for (std::string_view text : {"⅓", "2⅔", "⅙", "⅐", "1/3", "2 1/3", "1/128"}) {
    CAPTURE(text);
    CHECK(refusal_of(parse_length(text, Unit::Inch)).fix.find("kept exactly") != std::string::npos);
  }
  CHECK(inch_read("6/3") == inches(2));
  CHECK(inch_read("127/127 in") == inches(1));
}

TEST_CASE("a bare number is in the unit that the project chose") {
  CHECK(inch_read("4") == inches(4));
  CHECK(mm_read("4") == millimetres(4));
  CHECK(mm_read("4 in") == inches(4));
  CHECK(inch_read("0") == Length{});
  CHECK(mm_read("½") == micrometres(500));
  CHECK(inch_read(".5") == inches(0, 1, 2));
}

TEST_CASE("decimals are exact to a nanometre and refused beyond") {
  CHECK(mm_read("0.000001") == Length{1});
  CHECK(mm_read("0.0000010000000000000000000000000000") == Length{1});
  CHECK(inch_read("0.33333") == Length{8'466'582});
  CHECK(refusal_of(parse_length("0.0000001", Unit::Millimetre)).fix ==
        "round to 6 decimals of a millimetre");
  CHECK(refusal_of(parse_length("0.0000000000000000001", Unit::Millimetre)).fix ==
        "these are more decimals than can be measured; round the number");
  CHECK(refusal_of(parse_length("0.1234567890123456789", Unit::Millimetre)).fix ==
        "these are more decimals than can be measured; round the number");
  CHECK(refusal_of(parse_length("0.333333", Unit::Inch)).fix == "round to 5 decimals of an inch");
}

TEST_CASE("a length ends at 100 m") {
  CHECK(mm_read("100000") == millimetres(100'000));
  CHECK(refusal_of(parse_length("100000.000001", Unit::Millimetre)).fix.find("100 m") !=
        std::string::npos);
  CHECK_FALSE(parse_length("100001 mm", Unit::Inch).ok());
  CHECK_FALSE(parse_length("3938 in", Unit::Inch).ok());
  CHECK(refusal_of(parse_length("999999999999 in", Unit::Inch)).fix.find("100 m") !=
        std::string::npos);
}

TEST_CASE("a wrong length says where, what was found and how to mend it") {
  struct Wrong {
    std::string_view text;
    std::size_t at;
    std::size_t length;
    std::string_view found;
    std::string_view fix;
  };
  const Wrong wrongs[] = {
      {"", 0, 0, "nothing", "write a number here"},
      {"   ", 3, 0, "nothing", "write a number here"},
      {"1/0", 0, 3, "1/0", "a fraction's lower number must be 1 or more"},
      {"4 1/0 in", 2, 3, "1/0", "a fraction's lower number must be 1 or more"},
      {"4 1 4", 0, 5, "4 1 4",
       "write a fraction with a slash, as in 4 1/4, or a decimal point, as in 4.25"},
      {"4 17/4", 0, 6, "4 17/4",
       "after a whole number the fraction must be less than 1; write 17/4 or 4 1/4"},
      {"4 4/4", 0, 5, "4 4/4",
       "after a whole number the fraction must be less than 1; write 17/4 or 4 1/4"},
      {"4,25", 0, 4, "4,25", "write a decimal point, as in 4.25, and no mark between thousands"},
      {"1,000 mm", 0, 5, "1,000",
       "write a decimal point, as in 4.25, and no mark between thousands"},
      {"1e400", 0, 5, "1e400", "write the number out in full, without an exponent"},
      {"1E-3 mm", 0, 4, "1E-3", "write the number out in full, without an exponent"},
      {"-4", 0, 2, "-4", "a measure of a piece cannot be negative; leave the minus sign away"},
      {" −4 in", 1, 4, "−4", "a measure of a piece cannot be negative; leave the minus sign away"},
      {"+4", 0, 2, "+4", "leave the plus sign away"},
      {"4.", 0, 2, "4.", "write at least one digit after the point, or leave the point away"},
      {"4.2.5", 0, 5, "4.2.5", "write one number only: 4.25, 17/4 or 4 1/4"},
      {"1/2/4", 0, 5, "1/2/4", "write one number only: 4.25, 17/4 or 4 1/4"},
      {"4.5 1/4", 0, 7, "4.5 1/4", "write one number only: 4.25, 17/4 or 4 1/4"},
      {"4 1/4 1/8", 0, 9, "4 1/4 1/8", "write one number only: 4.25, 17/4 or 4 1/4"},
      {"½¼", 0, 4, "½¼", "write one number only: 4.25, 17/4 or 4 1/4"},
      {"4/", 0, 2, "4/", "a whole number must follow the slash, as in 1/4"},
      {"4-5", 0, 3, "4-5",
       "a fraction must follow the hyphen, as in 4-1/4; a range of measures cannot be given"},
      {"four", 0, 4, "four", "begin with a number, written with the digits 0 to 9"},
      {"٤", 0, 2, "٤", "begin with a number, written with the digits 0 to 9"},
      {"in", 0, 2, "in", "begin with a number, written with the digits 0 to 9"},
      {"nan", 0, 3, "nan", "begin with a number, written with the digits 0 to 9"},
      {"4 furlong", 2, 7, "furlong",
       "the unit may be in, mm or cm, or be left away; nothing may follow it"},
      {"4'", 1, 1, "'", "write feet as inches: a foot is 12 in"},
      {"4 ft", 2, 2, "ft", "write feet as inches: a foot is 12 in"},
      {"1 m", 2, 1, "m", "write metres as centimetres: a metre is 100 cm"},
      {"12pt", 2, 2, "pt", "points and pixels are for screens and type; measure in in, mm or cm"},
      {"4 in 5 mm", 5, 4, "5 mm", "give one measure in one unit"},
      {"4 mmm", 2, 3, "mmm",
       "the unit may be in, mm or cm, or be left away; nothing may follow it"},
      {"4 - 1/4", 2, 1, "-", "give one measure; a range or a sum cannot stand here"},
      {"4 \u22121/4", 2, 6, "−1/4", "give one measure; a range or a sum cannot stand here"},
  };
  for (const Wrong& wrong : wrongs) {
    CAPTURE(wrong.text);
    const ParseError why = refusal_of(parse_length(wrong.text, Unit::Inch));
    CHECK(why.at == wrong.at);
    CHECK(why.length == wrong.length);
    CHECK(why.found == wrong.found);
    CHECK(why.fix == wrong.fix);
    CHECK(why.expected == "a length such as 4 1/4 in or 108 mm");
  }
}

TEST_CASE("a size is two sides with one unit for both") {
  const Size a2{inches(4, 1, 4), inches(5, 1, 2)};
  for (std::string_view text : {"4 1/4 x 5 1/2", "4 1/4 × 5 1/2 in", "4.25x5.5", "4¼X5½",
                                "17/4×11/2\"", "4 1/4\" x 5 1/2\"", "4.25inx5.5in",
                                "4.25 in x 5.5 in", "4\u00A01/4\u00A0×\u00A05\u00A01/2\u00A0in"}) {
    CAPTURE(text);
    CHECK(value_of(parse_size(text, Unit::Inch)) == a2);
  }
  CHECK(value_of(parse_size("105 x 148 mm", Unit::Inch)) ==
        Size{millimetres(105), millimetres(148)});
  CHECK(value_of(parse_size("105mmx148mm", Unit::Inch)) ==
        Size{millimetres(105), millimetres(148)});
  CHECK(value_of(parse_size("10.5 x 14.8 cm", Unit::Inch)) ==
        Size{millimetres(105), millimetres(148)});
  CHECK(value_of(parse_size("105 x 148", Unit::Millimetre)) ==
        Size{millimetres(105), millimetres(148)});
}

TEST_CASE("a size that can be read two ways, or is none, is refused") {
  const std::pair<std::string_view, std::string_view> wrongs[] = {
      {"", "write a number here"},
      {"4", "write both sides with an x between them"},
      {"4 x", "write a number here"},
      {"x 4", "begin with a number, written with the digits 0 to 9"},
      {"4 by 5", "write an x or × between width and height"},
      {"4 * 5", "write an x or × between width and height"},
      {"4 in x 5", "write the unit once, at the end, for both sides"},
      {"4 in x 100 mm", "write the unit once, at the end, for both sides"},
      {"4 x 5 x 6", "give two sides only: width x height"},
      {"0 x 5", "both sides must be more than 0"},
      {"5 x 0.0 mm", "both sides must be more than 0"},
      {"-4 x 5", "a measure of a piece cannot be negative; leave the minus sign away"},
      {"4 x -5", "a measure of a piece cannot be negative; leave the minus sign away"},
      {"4 1/3 x 5",
       "this fraction cannot be kept exactly; use halves, quarters, eighths, sixteenths, "
       "thirty-seconds, sixty-fourths, or a decimal such as 0.333"},
      {"4 x 5000", "lengths up to 100 m can be given; check the number and its unit"},
  };
  for (const auto& row : wrongs) {
    const auto& text = row.first;
    const auto& fix = row.second;
    CAPTURE(text);
    CHECK(refusal_of(parse_size(text, Unit::Inch)).fix == fix);
  }
  const ParseError why = refusal_of(parse_size("4 1/4 x 5,5 in", Unit::Inch));
  CHECK(why.at == 8);
  CHECK(why.found == "5,5");
}

TEST_CASE("an angle is clockwise degrees, at most a full turn") {
  CHECK(value_of(parse_angle("90")) == degrees(90));
  CHECK(value_of(parse_angle("-7.5")).udeg == -7'500'000);
  CHECK(value_of(parse_angle("−7.5")).udeg == -7'500'000);
  CHECK(value_of(parse_angle(" 12.5deg ")).udeg == 12'500'000);
  CHECK(value_of(parse_angle("45°")) == degrees(45));
  CHECK(value_of(parse_angle("45 degrees")) == degrees(45));
  CHECK(value_of(parse_angle("22 1/2°")).udeg == 22'500'000);
  CHECK(value_of(parse_angle("360")) == degrees(360));
  CHECK(value_of(parse_angle("-360")) == degrees(-360));
  CHECK(in_degrees(degrees(45)) == doctest::Approx(45));
  for (std::string_view text : {"", "361", "360.000001", "-361", "1/3", "0.0000001", "45 rad",
                                "45 deg 3", "45°°", "1e2", "left", "45degs"}) {
    CAPTURE(text);
    CHECK_FALSE(parse_angle(text).ok());
  }
  CHECK(refusal_of(parse_angle("45 rad")).found == "rad");
}
