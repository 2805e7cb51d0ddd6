#include "show.h"

#include "measure/length.h"

using namespace leafwright;

// Definition of the international inch (1959): 25.4 mm exactly.
TEST_CASE("an inch is 25.4 mm exactly and every 64th of it is a whole number of nanometres") {
  CHECK(inches(1) == micrometres(25'400));
  CHECK(inches(0, 1, 64).nm == 396'875);
  for (std::int64_t n = 0; n <= 64; ++n) CHECK(inches(0, n, 64) * 64 == inches(n));
}

TEST_CASE("a mat is a quarter inch smaller than what it lies on") {
  // Common practice: 4 1/4 x 5 1/2 carries 4 x 5 1/4, that carries 3 3/4 x 5.
  CHECK(inches(4, 1, 4) - 2 * inches(0, 1, 8) == inches(4));
  CHECK(inches(5, 1, 2) - inches(0, 1, 8) * 4 == inches(5));
}

TEST_CASE("lengths order, negate and divide as numbers do") {
  CHECK(inches(1) > millimetres(25));
  CHECK(-inches(1) < Length{});
  CHECK(absolute(-inches(1)) == inches(1));
  CHECK(inches(4, 1, 4) / 2 == inches(2, 1, 8));
  Length sum;
  sum += inches(1);
  sum -= millimetres(25);
  CHECK(sum == micrometres(400));
}

// ISO 32000-1, 8.3.2.3: user space is 1/72 in.
TEST_CASE("72 points make an inch") {
  CHECK(in_points(inches(1)) == doctest::Approx(72));
  CHECK(points(72) == inches(1));
  CHECK(points(-36) == -inches(0, 1, 2));
  CHECK(in_mm(inches(1)) == doctest::Approx(25.4));
  CHECK(in_inches(millimetres(254)) == doctest::Approx(10));
}
