#include "support.h"

#include <doctest/doctest.h>

#include <string>

using namespace leafwright;
using namespace leafwright::test;

namespace {

// After the card.
Reading read_with(const std::string& end) {
  std::string text = project_with("");
  text.replace(text.rfind("</project>"), std::string_view("</project>").size(), end + "</project>");
  return read_text(text);
}

Reading selling(std::string_view inside) {
  return read_with("<selling>" + std::string(inside) + "</selling>");
}

} // namespace

TEST_CASE("fees are read exactly, with or without the sign") {
  CHECK(selling(R"(<fees percent="2.9" fixed="0.30"/>)").project.selling.fee_ppm == 29'000);
  CHECK(selling(R"(<fees percent="2.9" fixed="0.30"/>)").project.selling.fee_fixed.minor == 30);
  CHECK(selling(R"(<fees percent="3 %"/>)").project.selling.fee_ppm == 30'000);
  CHECK(selling(R"(<fees percent="0.0625"/>)").project.selling.fee_ppm == 625);
}

TEST_CASE("a share that is none is told") {
  for (const std::string_view bad : {"101", "x", "2.9 per cent", "0.00001", ""})
    CHECK(has_code(selling("<fees percent=\"" + std::string(bad) + "\"/>"), "read-number"));
}

TEST_CASE("steps of postage stand lightest first, that of any mass last") {
  const Selling selling_ = selling(R"(<postage cost="9.00"/><postage up-to="400 g" cost="7.00"/>)"
                                   R"(<postage up-to="150 g" cost="5.00"/>)")
                               .project.selling;
  REQUIRE(selling_.postage.size() == 3);
  CHECK(selling_.postage[0].up_to->mg == 150'000);
  CHECK(selling_.postage[1].cost.minor == 700);
  CHECK(!selling_.postage[2].up_to);
}

TEST_CASE("one mass has one cost of postage") {
  CHECK(has_code(
      selling(R"(<postage up-to="1 lb" cost="5.00"/><postage up-to="16 oz" cost="6.00"/>)"),
      "read-twice"));
  CHECK(has_code(selling(R"(<postage cost="5.00"/><postage cost="6.00"/>)"), "read-twice"));
}

TEST_CASE("outlays keep their words") {
  const Reading reading = selling(R"(<outlay cost="42.00">Papers for samples</outlay>)");
  REQUIRE(reading.ok());
  REQUIRE(reading.project.selling.outlays.size() == 1);
  CHECK(reading.project.selling.outlays[0].words == "Papers for samples");
  CHECK(reading.project.selling.outlays[0].cost.minor == 4200);
}

TEST_CASE("choices of a swap are whole things unless they say otherwise") {
  const Reading reading =
      read_with(R"(<tier id="t"><include item="kraft" value="2.50"/><swap><choice item="kraft"/>)"
                R"(<choice item="kraft" amount="3 sheets" value="1.00" most="4"/></swap></tier>)");
  REQUIRE(reading.ok());
  const Tier& tier = reading.project.tiers.at(0);
  CHECK(tier.includes[0].value->minor == 250);
  REQUIRE(tier.substitution.choices.size() == 2);
  CHECK(tier.substitution.choices[0].amount.kind == Amount::Kind::Whole);
  CHECK(tier.substitution.choices[0].most == 1);
  CHECK(tier.substitution.choices[1].amount.count == 3);
  CHECK(tier.substitution.choices[1].most == 4);
}

TEST_CASE("a choice that is not known is told with a near name") {
  const Reading reading = read_with(R"(<tier id="t"><swap><choice item="craft"/></swap></tier>)");
  CHECK(has_code(reading, "read-unknown-name"));
}
