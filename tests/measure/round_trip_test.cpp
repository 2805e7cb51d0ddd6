#include "show.h"

#include "measure/parse_length.h"
#include "measure/print_length.h"

#include <random>

using namespace leafwright;
using leafwright::testing::value_of;

namespace {

// The same numbers on every machine: the engine's sequence is fixed by the C++ standard.
class Lengths {
 public:
  Length up_to(Length most) {
    return {static_cast<std::int64_t>(engine_() % static_cast<std::uint64_t>(most.nm + 1))};
  }

 private:
  std::mt19937_64 engine_{20270302};
};

struct Style {
  Unit unit;
  Length step;
};
constexpr Style styles[] = {
    {Unit::Inch, inches(0, 1, 2)},        {Unit::Inch, inches(0, 1, 8)},
    {Unit::Inch, inches(0, 1, 16)},       {Unit::Inch, inches(0, 1, 32)},
    {Unit::Inch, inches(0, 1, 64)},       {Unit::Inch, inches(0, 1, 10)},
    {Unit::Inch, inches(0, 1, 1000)},     {Unit::Millimetre, millimetres(1)},
    {Unit::Millimetre, micrometres(500)}, {Unit::Millimetre, micrometres(100)},
    {Unit::Millimetre, micrometres(1)},   {Unit::Millimetre, Length{1}},
};

Printing printing(Style style) {
  Printing how;
  how.unit = style.unit;
  how.step = style.step;
  return how;
}

} // namespace

TEST_CASE("what is printed exactly reads back as the same length") {
  Lengths lengths;
  for (const Style& style : styles) {
    const Printing how = printing(style);
    for (int i = 0; i < 500; ++i) {
      const Length a = nearest(lengths.up_to(millimetres(i < 250 ? 400 : 90'000)), style.step);
      const std::string text = length_text(a, how);
      CAPTURE(text);
      CHECK(value_of(parse_length(text, Unit::Inch)) == a);
      CHECK(value_of(parse_length(number_text(a, how), style.unit)) == a);
    }
  }
}

TEST_CASE("what is printed with ≈ is within half a step of the length") {
  Lengths lengths;
  for (const Style& style : styles) {
    const Printing how = printing(style);
    for (int i = 0; i < 500; ++i) {
      const Length a = lengths.up_to(millimetres(400));
      std::string text = length_text(a, how);
      CAPTURE(text);
      const bool rounded = text.starts_with("≈");
      CHECK(rounded != prints_exactly(a, style.step));
      if (rounded) text.erase(0, std::string_view("≈").size());
      CHECK(absolute(value_of(parse_length(text, Unit::Inch)) - a) * 2 <= style.step);
    }
  }
}

TEST_CASE("a printed size reads back as the same size") {
  Lengths lengths;
  for (const Style& style : styles) {
    for (int i = 0; i < 200; ++i) {
      const Size size{nearest(lengths.up_to(millimetres(400)), style.step) + style.step,
                      nearest(lengths.up_to(millimetres(400)), style.step) + style.step};
      const std::string text = size_text(size, printing(style));
      CAPTURE(text);
      CHECK(value_of(parse_size(text, Unit::Inch)) == size);
    }
  }
}

TEST_CASE("each 64th of an inch up to a 12 inch sheet reads the same in all its spellings") {
  for (std::int64_t n = 0; n <= 12 * 64; ++n) {
    const Length a = inches(n / 64, n % 64, 64);
    CAPTURE(n);
    CHECK(value_of(parse_length(fmt::format("{}/64", n), Unit::Inch)) == a);
    CHECK(value_of(parse_length(fmt::format("{} {}/64 in", n / 64, n % 64), Unit::Inch)) == a);
    CHECK(value_of(parse_length(fmt::format("{}-{}/64\"", n / 64, n % 64), Unit::Inch)) == a);
    CHECK(value_of(parse_length(fmt::format("{}.{:06} mm", a.nm / nm_per_mm, a.nm % nm_per_mm),
                                Unit::Inch)) == a);
  }
}
