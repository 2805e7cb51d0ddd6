#include "read/internal/elements.h"
#include "support.h"

#include <cmath>
#include <numbers>

using namespace leafwright;
using reading::parse_path;

namespace {

constexpr double mm = 1'000'000;

// On a cubic curve at t.
std::pair<double, double> on(const Point& from, const Segment& s, double t) {
  const auto mix = [&](double a, double b, double c, double d) {
    const double u = 1 - t;
    return u * u * u * a + 3 * u * u * t * b + 3 * u * t * t * c + t * t * t * d;
  };
  return {mix(in_mm(from.x), in_mm(s.control1.x), in_mm(s.control2.x), in_mm(s.end.x)),
          mix(in_mm(from.y), in_mm(s.control1.y), in_mm(s.control2.y), in_mm(s.end.y))};
}

} // namespace

TEST_CASE("relative, absolute and repeated commands mean the same path") {
  const auto absolute = parse_path("M1 2 L5 2 L5 7 L1 7 Z", mm, mm);
  REQUIRE(absolute.ok());
  for (const char* text : {"m1,2l4 0 0 5-4 0z", "M1 2H5V7H1Z", "M1 2h4v5h-4z", "M1 2 5 2 5 7 1 7z",
                           " M 1.0,2.0\nL5e0 2L5,7L1,7Z "}) {
    CAPTURE(text);
    const auto path = parse_path(text, mm, mm);
    REQUIRE(path.ok());
    CHECK(path.value() == absolute.value());
  }
}

TEST_CASE("numbers may touch as SVG lets them") {
  const auto path = parse_path("M.5.5-1-1", mm, mm); // M 0.5 0.5 L -1 -1
  REQUIRE(path.ok());
  REQUIRE(path.value().size() == 2);
  CHECK(path.value()[1].end == Point{millimetres(-1), millimetres(-1)});
}

TEST_CASE("smooth curves mirror the handle before them") {
  // SVG 1.1, 8.3.6: the first control point of S is the reflection of the last one of C.
  const auto path = parse_path("M0 0C0 10 10 10 10 0S20-10 20 0", mm, mm);
  REQUIRE(path.ok());
  CHECK(path.value()[2].control1 == Point{millimetres(10), millimetres(-10)});
  const auto quadratic = parse_path("M0 0Q3 6 6 0T12 0", mm, mm);
  REQUIRE(quadratic.ok());
  CHECK(quadratic.value()[2].control1 == Point{millimetres(8), millimetres(-4)});
}

TEST_CASE("an arc keeps to its circle and ends exactly where it is told") {
  const auto path = parse_path("M10 0A10 10 0 1 1 0-10", mm, mm);
  REQUIRE(path.ok());
  const Path& all = path.value();
  CHECK(all.back().end == Point{{}, millimetres(-10)});
  CHECK(all.size() == 4); // three quarters
  for (std::size_t i = 1; i < all.size(); ++i)
    for (double t = 0; t <= 1; t += 0.1) {
      const auto [x, y] = on(all[i - 1].end, all[i], t);
      CHECK(std::abs(std::hypot(x, y) - 10) < 10 * 0.0003);
    }
}

TEST_CASE("an arc too small to reach is made large enough") { // SVG 1.1, F.6.6
  const auto path = parse_path("M0 0A1 1 0 0 1 10 0", mm, mm);
  REQUIRE(path.ok());
  const auto [x, y] = on(path.value()[1].end, path.value()[2], 0.0);
  CHECK(std::abs(std::hypot(x - 5, y) - 5) < 0.002);
}

TEST_CASE("path data that cannot be read say where") {
  struct Row {
    const char* text;
    std::size_t at;
  };
  for (const Row& row : {Row{"", 0}, Row{"L1 1", 0}, Row{"M1", 2}, Row{"M1 1 K2 2", 5},
                         Row{"M1 1 L2", 7}, Row{"M1 1 A1 1 0 2 0 5 5", 12}, Row{"M1 1 L2 x", 8},
                         Row{"M1 1 L1e9 0", 6}, Row{"M1 1 Lnan 0", 6}, Row{"M inf 0", 2}}) {
    CAPTURE(row.text);
    const auto path = parse_path(row.text, mm, mm);
    REQUIRE_FALSE(path.ok());
    CHECK(path.parse_error().at == row.at);
  }
}
