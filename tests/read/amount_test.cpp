#include "read/internal/elements.h"
#include "support.h"

using namespace leafwright;
using reading::parse_amount;

TEST_CASE("an amount is said in the words of a shop") {
  using Kind = Amount::Kind;
  const auto amount = [](const char* text) {
    const auto parsed = parse_amount(text, Unit::Inch);
    REQUIRE_MESSAGE(parsed.ok(), text);
    return *parsed;
  };
  CHECK(amount("as needed").kind == Kind::AsNeeded);
  CHECK(amount("whole").kind == Kind::Whole);
  CHECK(amount("2 whole").count == 2);
  CHECK(amount("3 packs").count == 3);
  CHECK(amount("1/3 of a pack").kind == Kind::Share);
  CHECK(amount("3/4 of a bolt").numerator == 3);
  CHECK(amount("½ pack").denominator == 2);
  CHECK(amount("22 in").length == inches(22));
  CHECK(amount("22 1/2 in").length == inches(22, 1, 2));
  CHECK(amount("600 mm").length == millimetres(600));
  CHECK(amount("20").kind == Kind::Count);
  CHECK(amount("4 sheets").count == 4);
  CHECK(amount("2 of 6 x 12").kind == Kind::Sheets);
  CHECK(amount("2 of 6 x 12").piece == Size{inches(6), inches(12)});
}

TEST_CASE("an amount of nothing, or of no known kind, is refused") {
  for (const char* text : {"", "0", "none", "1 1/2", "5/4 of a pack", "0/4 of a pack", "0 in", "-3",
                           "4 heaps", "2 of", "2 of 6", "1e9", "99999999999", "1/4"}) {
    CAPTURE(text);
    CHECK_FALSE(parse_amount(text, Unit::Inch).ok());
  }
}
