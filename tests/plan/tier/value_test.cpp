#include "plan/tier/value.h"

#include "plan/tier/account.h"
#include "stall.h"

#include <doctest/doctest.h>

using namespace leafwright;
using namespace leafwright::tiers;

TEST_CASE("a tier is worth what its things cost in a shop, by their share of a pack") {
  const TierValue value = value_of(stall::project(), stall::kit);
  REQUIRE(value.lines.size() == 4);
  CHECK(value.lines[0].value.minor == 400); // the booklet's own price
  CHECK(value.lines[1].value.minor == 50);  // both cards come from one sheet, ten for 5.00
  CHECK(value.lines[2].value.minor == 100); // 25 of 100 in for 4.00
  CHECK(value.lines[3].value.minor == 40);  // 4 of 50 for 5.00
  CHECK(value.total.minor == 590);
  CHECK(value.unpriced.empty());
}

TEST_CASE("a gift counts to the value and is told apart") {
  const TierValue value =
      value_of(stall::project(R"(<include item="dome" amount="4"/>)",
                              R"(<include item="dome" amount="4" gift="yes"/>)"),
               stall::kit);
  CHECK(value.total.minor == 590);
  CHECK(value.gifts.minor == 40);
}

TEST_CASE("a value that the maker gives stands for the shop's") {
  const TierValue value = value_of(
      stall::project(R"(<include item="parts"/>)", R"(<include item="parts" value="6.50"/>)"),
      stall::kit);
  CHECK(value.lines[1].value.minor == 650);
}

TEST_CASE("what has no price is named and counts for nothing") {
  const TierValue value =
      value_of(stall::project(R"(spool="100" price="4.00")", R"(spool="100")"), stall::kit);
  CHECK(!value.lines[2].known);
  REQUIRE(value.unpriced.size() == 1);
  CHECK(value.unpriced[0].kind == ItemKind::Ribbon);
  CHECK(value.total.minor == 490);
}

TEST_CASE("a paper that is sold in a pack with others has its share of the pack's price") {
  // Four 12 x 12 in sheets for 6.00; half the pack is two sheets.
  Amount half;
  half.kind = Amount::Kind::Share;
  half.denominator = 2;
  const auto value = value_of(stall::project(), {ItemKind::Pack, 0}, half);
  REQUIRE(value);
  CHECK(value->minor == 300);
}

TEST_CASE("parts of packs are rounded to the nearest minor unit, whole packs upwards") {
  const ShopPrice pack{{500, {}}, 80};
  CHECK(part_price(pack, 1).minor == 6);  // 6.25
  CHECK(part_price(pack, 2).minor == 13); // 12.5
  CHECK(packs_price(pack, 1).minor == 500);
  CHECK(packs_price(pack, 80).minor == 500);
  CHECK(packs_price(pack, 81).minor == 1000);
}

TEST_CASE("a difference tells what is added, what there is more of, and what need not be owned") {
  const Project project = stall::project();
  TierValues values(project);
  const TierDifference found = difference_of(values, stall::kit, stall::full);
  REQUIRE(found.lines.size() == 2);
  CHECK(found.lines[0].kind == Difference::Kind::Added); // the stamps, 20.00
  CHECK(found.lines[0].item.kind == ItemKind::StampSet);
  CHECK(found.lines[1].kind == Difference::Kind::More); // six domes more, 1.00 less 0.40
  CHECK(found.lines[1].value->minor == 60);
  CHECK(found.value.minor == 2060);
  CHECK(found.price->minor == 1800);
  REQUIRE(found.freed.size() == 1);
  CHECK(found.asked.empty());
}

TEST_CASE("a difference the other way about is told as less and missing") {
  const Project project = stall::project();
  TierValues values(project);
  const TierDifference found = difference_of(values, stall::full, stall::kit);
  REQUIRE(found.lines.size() == 2);
  CHECK(found.lines[0].kind == Difference::Kind::Less);
  CHECK(found.lines[1].kind == Difference::Kind::Missing);
  CHECK(found.value.minor == -2060);
  CHECK(found.asked.size() == 1);
}

TEST_CASE("the ladder goes from the cheapest tier up and leaves the team's out") {
  const Project project = stall::project(R"(name="Full kit" price="30.00")",
                                         R"(name="Full kit" price="30.00" audience="team")");
  TierValues values(project);
  const auto ladder = ladder_of(values);
  REQUIRE(ladder.size() == 1);
  CHECK(ladder[0].from == stall::booklet);
  CHECK(ladder[0].to == stall::kit);
}
