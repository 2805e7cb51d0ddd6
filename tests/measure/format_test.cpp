#include "show.h"

#include "measure/parse_length.h"
#include "measure/print_length.h"

using namespace leafwright;

TEST_CASE("a formatted length is exact: 64ths of an inch, else millimetres") {
  CHECK(fmt::format("{}", inches(4, 1, 4)) == "4\u00A01/4\u00A0in");
  CHECK(fmt::format("{}", inches(0, 1, 64)) == "1/64\u00A0in");
  CHECK(fmt::format("{}", millimetres(108)) == "108\u00A0mm");
  CHECK(fmt::format("{}", Length{107'950'001}) == "107.950001\u00A0mm");
  CHECK(fmt::format("{}", -millimetres(3)) == "−3\u00A0mm");
  CHECK(fmt::format("{}", Length{}) == "0\u00A0in");
}

TEST_CASE("a formatted length reads back as the same length, whatever it is") {
  for (std::int64_t nm = 0; nm < 100'000'000'000; nm = nm * 3 + 1) {
    CHECK(parse_length(fmt::format("{}", Length{nm}), Unit::Inch).value() == Length{nm});
  }
}

TEST_CASE("a formatted size has one unit") {
  CHECK(fmt::format("{}", Size{inches(4), inches(5)}) == "4\u00A0×\u00A05\u00A0in");
  CHECK(fmt::format("{}", Size{inches(1), millimetres(3)}) == "25.4\u00A0×\u00A03\u00A0mm");
}

TEST_CASE("measures can be aligned like text") {
  CHECK(fmt::format("{:>8}", Money{1250, {}}) == "  $12.50");
  CHECK(fmt::format("{:<8}|", Money{1250, {}}) == "$12.50  |");
}
