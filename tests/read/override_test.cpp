#include "support.h"

using namespace leafwright;
using namespace leafwright::test;

namespace {

const std::string two_cards = project_with(
    R"(<panel id="mat" stock="kraft" inset="1/8"/><panel id="top" stock="kraft" on="mat" size="mat.size - 1/4"/></card>
<card id="d" title="D" form="top-fold" size="A2"><base stock="kraft"/><panel id="mat" stock="kraft" size="3 x 3"/>)");

Reading with(std::vector<std::string> overrides) {
  ReadOptions options;
  options.overrides = std::move(overrides);
  return read_text(two_cards, options);
}

const Piece& mat_of(const Reading& reading, std::size_t card) {
  return reading.project.cards.at(card).pieces.at(1);
}

} // namespace

TEST_CASE("an override changes a measure and all that hangs on it") {
  const Reading reading = with({"c/mat.width=3 in"});
  CHECK(all_text(reading) == "");
  CHECK(mat_of(reading, 0).size == Size{inches(3), inches(5, 1, 4)});
  CHECK(piece(reading, "top").size == Size{inches(2, 3, 4), inches(5)});
  CHECK(mat_of(reading, 1).size == Size{inches(3), inches(3)});
}

TEST_CASE("without a card an override reaches every thing of that name") {
  const Reading reading = with({"mat.size=2 x 2"});
  CHECK(mat_of(reading, 0).size == Size{inches(2), inches(2)});
  CHECK(mat_of(reading, 1).size == Size{inches(2), inches(2)});
}

TEST_CASE("cards, supplies and the project itself can be overridden") {
  const Reading reading = with({"c.minutes=40", "kraft.price=3.50", "project.paper=a4",
                                "grosgrain.width=1/2", "base.stock=kraft", "c.title=New"});
  CHECK(all_text(reading) == "");
  CHECK(reading.project.cards.at(0).minutes == 40);
  CHECK(reading.project.cards.at(0).title == "New");
  CHECK(reading.project.stocks.at(0).sheets.at(0).sold.price->minor == 350);
  CHECK(reading.project.paper == "a4");
  CHECK(reading.project.ribbons.at(0).width == inches(0, 1, 2));
}

TEST_CASE("an override that cannot be is a finding in its own text") {
  CHECK(
      all_text(with({"mat.width=4 1 4"})) ==
      R"(--set:1:11: error: 4 1 4. Expected: a length such as 4 1/4 in or 108 mm. Fix: write a fraction with a slash, as in 4 1/4, or a decimal point, as in 4.25. [read-measure]
  mat.width=4 1 4
            ^^^^^
)");
  CHECK(
      all_text(with({"mta.width=4"})) ==
      R"(--set:1:1: error: nothing is called mta. Expected: the id of a thing of the project. Fix: did you mean mat? [read-override]
  mta.width=4
  ^^^
)");
  CHECK(has_code(with({"mat.widht=4"}), "read-override"));
  CHECK(has_code(with({"mat.width"}), "read-override"));
  CHECK(has_code(with({"=4"}), "read-override"));
  CHECK(has_code(with({""}), "read-override"));
  CHECK(has_code(with({"x/mat.width=4"}), "read-override"));
}

TEST_CASE("what is typed behind --set is text like that of a file") {
  const Reading reading = with({"c.title=A\uFFFFB", "c.title=\xFF", "mat.width=3 in"});
  CHECK(codes(reading) == std::vector<std::string>{"read-encoding", "read-encoding"});
  REQUIRE(reading.findings.size() == 2);
  CHECK(reading.findings[0].place.file == 1);
  CHECK(reading.findings[0].place.column == 10);
  CHECK(reading.findings[1].fix == "type it in a terminal that is set to UTF-8");
  CHECK(mat_of(reading, 0).size.width == inches(3)); // the others are still tried
}
