#include "model/work.h"

#include <doctest/doctest.h>

#include <string>

using namespace leafwright;

namespace {

Project with_piece(Piece piece) {
  Project project;
  project.cards.emplace_back().pieces.push_back(std::move(piece));
  return project;
}

std::string names(const std::vector<Tool>& tools) {
  std::string out;
  for (const Tool& tool : tools) out += (out.empty() ? "" : "; ") + tool.name;
  return out;
}

} // namespace

namespace {

Finish finish(Finish::Kind kind, int ink, std::string with = {}) {
  Finish one;
  one.kind = kind;
  one.ink = ink;
  one.with = std::move(with);
  return one;
}

} // namespace

TEST_CASE("what a card takes and no tool is for is implied under its usual name") {
  Piece piece;
  piece.cut = Piece::CutBy::Trimmer;
  piece.finishes = {finish(Finish::Kind::EdgeInked, 0), finish(Finish::Kind::CornersRounded, -1)};
  piece.stamped.emplace_back().method = Impression::Method::SecondGeneration;
  Project project = with_piece(piece);
  CHECK(names(implied_tools(project)) == "Paper trimmer; Corner rounder; Scrap paper; Sponge");
  Tool dauber;
  dauber.works = {Work::Ink, Work::Trim};
  project.tools = {dauber};
  CHECK(names(implied_tools(project)) == "Corner rounder; Scrap paper");
}

TEST_CASE("a tool in words takes the place of the usual one") {
  Piece piece;
  piece.finishes = {finish(Finish::Kind::EdgeInked, 0, "stencil brush")};
  Project project = with_piece(piece);
  CHECK(names(implied_tools(project)) == "Paper trimmer; Stencil brush");
  Tool brush;
  brush.id = "brush";
  brush.name = "stencil brush";
  project.tools = {brush};
  CHECK(names(implied_tools(project)) == "Paper trimmer");
}

TEST_CASE("a piece with another way than its die takes scissors, and so does ribbon") {
  Piece piece;
  piece.cut = Piece::CutBy::Die;
  Card card;
  card.pieces = {piece};
  CHECK_FALSE(works_of(card).has(Work::HandCut));
  card.pieces[0].alternative = "Draw round a coin.";
  CHECK(works_of(card).has(Work::HandCut));
  card.pieces = {};
  card.ribbons.emplace_back();
  CHECK(works_of(card).has(Work::HandCut));
}

TEST_CASE("the hole of a tag is punched unless a die cuts it with the tag") {
  Piece piece;
  piece.cut = Piece::CutBy::Scissors;
  piece.shape.outline = Shape::Outline::Tag;
  piece.shape.radius = millimetres(3);
  CHECK(names(implied_tools(with_piece(piece))) == "Paper trimmer; Scissors; Hole punch");
  piece.shape.radius = {};
  CHECK(names(implied_tools(with_piece(piece))) == "Paper trimmer; Scissors");
  piece.shape.radius = millimetres(3);
  piece.cut = Piece::CutBy::Die;
  CHECK(names(implied_tools(with_piece(piece))).find("Hole punch") == std::string::npos);
}
