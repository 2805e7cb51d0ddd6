#include "found.h"

using namespace leafwright;
using namespace leafwright::testing;

TEST_CASE("a base of the wrong size is told the size that folds to the card") {
  const Project project =
      changed([](Project&, Card& card) { card.pieces[base].size.height = inches(10, 1, 2); });
  const Findings some = found(project, "fit-base");
  REQUIRE(some.size() == 1);
  CHECK(plain(some[0].fix) == "cut it 4 1/4 × 11 in");
}

TEST_CASE("a base turned round is told so") {
  const Project project = changed(
      [](Project&, Card& card) { card.pieces[base].size = card.pieces[base].size.turned(); });
  CHECK(found(project, "fit-base").at(0).fix.find("changed places") != std::string::npos);
}

TEST_CASE("a card without a base is told which base it needs") {
  const Project project = changed([](Project&, Card& card) {
    card.pieces.clear();
    card.build.clear();
  });
  CHECK(plain(found(project, "fit-base").at(0).fix) == "add a base of 4 1/4 × 11 in");
}

TEST_CASE("a fold without a score and a score without a fold are both named") {
  const Project project =
      changed([](Project&, Card& card) { card.pieces[base].scores[0].at = inches(5); });
  const Findings some = found(project, "fit-score");
  REQUIRE(some.size() == 2);
  CHECK(plain(some[0].fix) == "score it 5 1/2 in from the top edge");
  CHECK(plain(some[1].found).find("5 in from its top edge, where nothing folds") !=
        std::string::npos);
}

TEST_CASE("a score within a hair of the fold is at the fold") {
  const Project project =
      changed([](Project&, Card& card) { card.pieces[base].scores[0].at += micrometres(300); });
  CHECK_FALSE(says(project, "fit-score"));
}

TEST_CASE("gates that overlap are told where to score, gates that leave a gap are noted") {
  const auto gate = [](Length first, Length second) {
    return changed([=](Project&, Card& card) {
      refold(card, {Form::Kind::Gate, 0});
      card.pieces[base].scores[0].at = first;
      card.pieces[base].scores[1].at = second;
    });
  };
  CHECK_FALSE(says(gate(inches(2, 1, 8), inches(6, 3, 8)), "fit-gates"));
  CHECK_FALSE(says(gate(inches(2, 1, 8), inches(6, 3, 8)), "fit-gate-gap"));
  const Findings over = found(gate(inches(2, 1, 4), inches(6, 1, 4)), "fit-gates");
  REQUIRE(over.size() == 1);
  CHECK(plain(over[0].found).find("overlap by 1/2 in") != std::string::npos);
  CHECK(plain(over[0].fix) == "score 2 1/8 in from each end");
  const Findings gap = found(gate(inches(2), inches(6, 1, 2)), "fit-gate-gap");
  REQUIRE(gap.size() == 1);
  CHECK(gap[0].severity == Severity::Note);
}

// Common practice: fold along the grain; across it the fibres break and the surface cracks.
TEST_CASE("a fold across the grain is warned of when the sheet forces it") {
  const auto with = [](Stock::Grain grain, Size sheet) {
    return changed([=](Project& project, Card&) {
      project.stocks[kraft].grain = grain;
      project.stocks[kraft].sheets[0].size = sheet;
    });
  };
  const Size letter{inches(8, 1, 2), inches(11)}, twelve{inches(12), inches(12)};
  CHECK_FALSE(says(with(Stock::Grain::AlongWidth, letter), "fit-grain"));
  CHECK(says(with(Stock::Grain::AlongHeight, letter), "fit-grain"));
  CHECK_FALSE(says(with(Stock::Grain::AlongHeight, twelve), "fit-grain")); // it can be turned
  CHECK_FALSE(says(with(Stock::Grain::Unknown, letter), "fit-grain"));
}

TEST_CASE("a pattern that must stand upright can force a fold across the grain") {
  const Project project = changed([](Project& p, Card&) {
    p.stocks[kraft].grain = Stock::Grain::AlongHeight;
    p.stocks[kraft].sheets[0].size = {inches(12), inches(12)};
    p.stocks[kraft].upright = true;
  });
  CHECK(found(project, "fit-grain").at(0).found.find("stand upright") != std::string::npos);
}
