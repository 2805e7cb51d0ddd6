#include "output/internal/pdf/syntax.h"

#include <doctest/doctest.h>

#include <limits>

using namespace leafwright;
using namespace leafwright::pdf;

namespace {

std::string decimal(std::int64_t value, int decimals) {
  std::string out;
  append_decimal(out, value, decimals);
  return out;
}
std::string in_pt(Length length) {
  std::string out;
  append_points(out, length);
  return out;
}
std::string real(double value) {
  std::string out;
  append_real(out, value);
  return out;
}

} // namespace

TEST_CASE("decimals carry no needless noughts") {
  CHECK(decimal(125000, 4) == "12.5");
  CHECK(decimal(120000, 4) == "12");
  CHECK(decimal(-5, 4) == "-.0005");
  CHECK(decimal(0, 4) == "0");
  CHECK(decimal(10, 1) == "1");
}

TEST_CASE("lengths become points exactly where points can say them") {
  CHECK(in_pt(inches(8, 1, 2)) == "612");
  CHECK(in_pt(inches(0, 1, 64)) == "1.125");
  CHECK(in_pt(-inches(1)) == "-72");
  // 108 mm = 306.14173... pt
  CHECK(in_pt(millimetres(108)) == "306.1417");
  CHECK(in_pt(Length{35}) == ".0001");
}

TEST_CASE("what is not a number is written as nought") {
  CHECK(real(std::numeric_limits<double>::quiet_NaN()) == "0");
  CHECK(real(std::numeric_limits<double>::infinity()) == "0");
  CHECK(real(-0.25) == "-.25");
  CHECK(real(1e-9) == "0");
}

TEST_CASE("strings of ASCII stay readable, others are UTF-16 with a mark") {
  CHECK(text_string("Gate (left)") == "(Gate \\(left\\))");
  CHECK(text_string("½") == "<FEFF00BD>");
  CHECK(text_string("\U0001F33F") == "<FEFFD83CDF3F>");
}

TEST_CASE("broken UTF-8 becomes the replacement character") {
  CHECK(utf16_string("a\xff"
                     "b") == "<FEFF0061FFFD0062>");
  CHECK(utf16_string("\xc3") == "<FEFFFFFD>");
  // One for each byte that belongs to no character (Unicode 15, table 3-8).
  CHECK(utf16_string("\xed\xa0\x80") == "<FEFFFFFDFFFDFFFD>"); // a surrogate
  CHECK(utf16_string("\xc0\xaf") == "<FEFFFFFDFFFD>");         // overlong
}

TEST_CASE("names escape what would end them") {
  CHECK(name("H1") == "/H1");
  CHECK(name("Lato Bold/1") == "/Lato#20Bold#2F1");
}

TEST_CASE("dates are civil time in UTC") {
  // 1 000 000 000 s after the epoch: 2001-09-09 01:46:40 UTC (a well-known instant).
  CHECK(date_string(1'000'000'000) == "(D:20010909014640+00'00')");
  CHECK(iso_date(1'000'000'000) == "2001-09-09T01:46:40Z");
  CHECK(iso_date(-1) == "1969-12-31T23:59:59Z");
}
