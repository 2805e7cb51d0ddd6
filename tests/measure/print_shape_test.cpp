#include "show.h"

#include "measure/parse_length.h"
#include "measure/print_length.h"

using namespace leafwright;
using leafwright::testing::value_of;

TEST_CASE("an area prints in square inches or square centimetres with about three figures") {
  const Area letter = area({inches(8, 1, 2), inches(11)});
  CHECK(area_text(letter, Unit::Inch) == "93.5\u00A0in²");
  CHECK(area_text(letter, Unit::Millimetre) == "≈603\u00A0cm²");
  CHECK(area_text(area({inches(12), inches(12)}), Unit::Inch) == "144\u00A0in²");
  CHECK(area_text(area({inches(4, 1, 4), inches(5, 1, 2)}), Unit::Inch) == "≈23.4\u00A0in²");
  CHECK(area_text(area({inches(0, 1, 2), inches(0, 1, 2)}), Unit::Inch) == "0.25\u00A0in²");
  CHECK(area_text(area({millimetres(99), millimetres(101)}), Unit::Millimetre) == "≈100\u00A0cm²");
  CHECK(area_text({}, Unit::Inch) == "0\u00A0in²");
  CHECK(area_text({-1'000'000'000}, Unit::Millimetre) == "−10\u00A0cm²");
}

TEST_CASE("an angle prints exactly and reads back") {
  CHECK(angle_text(degrees(90)) == "90°");
  CHECK(angle_text({-7'500'000}) == "−7.5°");
  CHECK(angle_text({1}) == "0.000001°");
  for (std::int64_t udeg = -360'000'000; udeg <= 360'000'000; udeg += 1'234'567) {
    CHECK(value_of(parse_angle(angle_text({udeg}))) == Angle{udeg});
  }
}
