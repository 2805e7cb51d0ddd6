#include "show.h"

#include "measure/print_length.h"

#include <array>
#include <utility>

using namespace leafwright;

namespace {

Printing inch_printing(std::int64_t parts) {
  Printing how;
  how.step = inches(0, 1, parts);
  return how;
}

Printing mm_printing(Length step) {
  Printing how;
  how.unit = Unit::Millimetre;
  how.step = step;
  how.other_step = inches(0, 1, 16);
  return how;
}

} // namespace

TEST_CASE("inches print as a whole number and a fraction in lowest terms") {
  const std::pair<Length, std::string_view> cases[] = {
      {{}, "0"},
      {inches(4), "4"},
      {inches(4, 1, 4), "4\u00A01/4"},
      {inches(0, 8, 16), "1/2"},
      {inches(12, 15, 16), "12\u00A015/16"},
      {-inches(4, 1, 4), "−4\u00A01/4"},
      {-inches(0, 1, 8), "−1/8"},
  };
  for (const auto& [length, text] : cases) CHECK(number_text(length, inch_printing(16)) == text);
}

TEST_CASE("a length between two marks is printed at the nearer one with ≈ in front") {
  CHECK(number_text(inches(4, 9, 32), inch_printing(32)) == "4\u00A09/32");
  CHECK(number_text(inches(4, 9, 32), inch_printing(16)) == "≈4\u00A05/16");
  CHECK(number_text(inches(4, 1, 16), inch_printing(8)) == "≈4\u00A01/8");
  CHECK(number_text(inches(4, 31, 32), inch_printing(8)) == "≈5");
  CHECK(number_text(millimetres(108), inch_printing(16)) == "≈4\u00A01/4");
  CHECK(number_text(Length{1}, inch_printing(16)) == "≈0");
  CHECK(number_text(Length{-1}, inch_printing(16)) == "≈0");
  CHECK(number_text(-inches(0, 1, 32), inch_printing(16)) == "≈−1/16");
}

TEST_CASE("millimetres print with no more decimals than the step has") {
  const Length a2_width = inches(4, 1, 4); // 107.95 mm
  CHECK(number_text(millimetres(108), mm_printing(millimetres(1))) == "108");
  CHECK(number_text(a2_width, mm_printing(millimetres(1))) == "≈108");
  CHECK(number_text(a2_width, mm_printing(micrometres(100))) == "≈108");
  CHECK(number_text(a2_width, mm_printing(micrometres(50))) == "107.95");
  CHECK(number_text(a2_width, mm_printing(micrometres(10))) == "107.95");
  CHECK(number_text(micrometres(3'400), mm_printing(micrometres(500))) == "≈3.5");
  CHECK(number_text(-micrometres(3'500), mm_printing(micrometres(500))) == "−3.5");
}

TEST_CASE("halves round away from nothing, on both sides of it") {
  CHECK(nearest(inches(0, 1, 32), inches(0, 1, 16)) == inches(0, 1, 16));
  CHECK(nearest(-inches(0, 1, 32), inches(0, 1, 16)) == -inches(0, 1, 16));
  CHECK(nearest(Length{4}, Length{10}) == Length{0});
  CHECK(nearest(Length{5}, Length{10}) == Length{10});
  CHECK(nearest(Length{-4}, Length{10}) == Length{0});
  CHECK(nearest(Length{7}, Length{0}) == Length{7});
  CHECK(prints_exactly(inches(4, 3, 16), inches(0, 1, 16)));
  CHECK_FALSE(prints_exactly(inches(4, 3, 16), inches(0, 1, 8)));
}

TEST_CASE("a length and a size are held together by no-break spaces") {
  CHECK(length_text(inches(4, 1, 4), inch_printing(16)) == "4\u00A01/4\u00A0in");
  CHECK(length_text(millimetres(108), mm_printing(millimetres(1))) == "108\u00A0mm");
  const Size a2{inches(4, 1, 4), inches(5, 1, 2)};
  CHECK(size_text(a2, inch_printing(16)) == "4\u00A01/4\u00A0×\u00A05\u00A01/2\u00A0in");
}

TEST_CASE("a size marks the side that is rounded, or the whole when both are") {
  const Size one{inches(4), inches(5, 1, 32)};
  const Size both{inches(4, 1, 32), inches(5, 1, 32)};
  CHECK(size_text(one, inch_printing(16)) == "4\u00A0×\u00A0≈5\u00A01/16\u00A0in");
  CHECK(size_text(both, inch_printing(16)) == "≈4\u00A01/16\u00A0×\u00A05\u00A01/16\u00A0in");
}

TEST_CASE("equal sides may be called square") {
  const Size square{inches(3, 1, 4), inches(3, 1, 4)};
  CHECK(size_text(square, inch_printing(16), true) == "3\u00A01/4\u00A0in\u00A0square");
  CHECK(size_text(square, inch_printing(16)) == "3\u00A01/4\u00A0×\u00A03\u00A01/4\u00A0in");
  const Size nearly{inches(3, 1, 4), inches(3, 1, 4) + Length{1}};
  CHECK(size_text(nearly, inch_printing(16), true) == "≈3\u00A01/4\u00A0in\u00A0square");
}

TEST_CASE("the other unit stands beside, rounded to a mark of its own ruler") {
  CHECK(other_size_text({inches(4, 1, 4), inches(5)}, inch_printing(16)) ==
        "≈108\u00A0×\u00A0127\u00A0mm");
  CHECK(other_size_text({millimetres(108), millimetres(127)}, mm_printing(millimetres(1))) ==
        "≈4\u00A01/4\u00A0×\u00A05\u00A0in");
  CHECK(other_size_text({inches(5), inches(7)}, inch_printing(16)) ==
        "127\u00A0×\u00A0≈178\u00A0mm");
  Printing untouched; // whose other step is half a millimetre
  untouched.unit = Unit::Millimetre;
  untouched.step = millimetres(1);
  CHECK(other_size_text({millimetres(108), millimetres(127)}, untouched) ==
        "≈4\u00A01/4\u00A0×\u00A05\u00A0in");
}

TEST_CASE("inches off the ruler's marks print as decimals") {
  CHECK(number_text(inches(4, 3, 10), inch_printing(10)) == "4.3");
  CHECK(number_text(inches(0, 7, 100), inch_printing(100)) == "0.07");
  Printing odd;
  odd.step = millimetres(1);
  CHECK(number_text(millimetres(1), odd) == "≈0.039");
}
