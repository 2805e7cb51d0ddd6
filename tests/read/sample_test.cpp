#include "support.h"

#include <set>

using namespace leafwright;
using namespace leafwright::test;

namespace {

const Reading& orchard() {
  static const Reading reading = read_project_file(sample_path("orchard-gate"));
  return reading;
}

} // namespace

TEST_CASE("the samples are read without a single finding") {
  for (const char* sample : {"orchard-gate", "kelp-lantern", "five-minute"}) {
    CAPTURE(sample);
    CHECK(all_text(read_project_file(sample_path(sample))) == "");
  }
}

TEST_CASE("an inset of an eighth makes the mat a quarter smaller, common practice") {
  const Piece& mat = piece(orchard(), "mat");
  CHECK(mat.size == Size{inches(4), inches(5, 1, 4)});
  CHECK(mat.at == Point{inches(0, 1, 8), inches(0, 1, 8)});
  CHECK(mat.equal_reveal_wanted);
}

TEST_CASE("what is like another takes its size, stock and stamping, and its own place") {
  const Piece& left = piece(orchard(), "left-leaf");
  const Piece& right = piece(orchard(), "right-leaf");
  CHECK(right.size == left.size);
  CHECK(right.stock == left.stock);
  CHECK(right.stamped.size() == left.stamped.size());
  CHECK(right.name == "right gate panel");
  CHECK_FALSE(right.on == left.on);
}

TEST_CASE("a die gives its piece shape and size, and a larger blank to cut from") {
  const Piece& label = piece(orchard(), "label");
  CHECK(label.size == Size{inches(2, 1, 2), inches(0, 13, 16)});
  CHECK(label.cut == Piece::CutBy::Die);
  CHECK(label.shape.outline == Shape::Outline::Rounded);
  CHECK(label.cut_from == Size{inches(2, 3, 4), inches(1, 1, 16)});
  CHECK(label.attach.raised);
}

TEST_CASE("a ribbon round the front takes twice its width and the overlap") {
  const RibbonUse& ribbon = orchard().project.cards.at(0).ribbons.at(0);
  CHECK(ribbon.path == inches(8, 1, 2));
  CHECK(ribbon.cut() == inches(9, 1, 2));
  CHECK(ribbon.at == inches(4, 1, 4));
}

TEST_CASE("the author's words carry the measures they name") {
  const AuthorStep& step = orchard().project.cards.at(0).steps.at(0);
  REQUIRE(step.text.size() == 5);
  CHECK(step.for_id == "mat");
  CHECK(step.text[1].kind == TextPart::Kind::Thing);
  CHECK(step.text[3].kind == TextPart::Kind::Length);
  CHECK(step.text[3].length == inches(0, 1, 8));
}

TEST_CASE("no letter of a piece passes for a figure or for another letter") {
  for (const Card& card : orchard().project.cards)
    for (const Piece& piece : card.pieces)
      CHECK(piece.letter.find_first_of("IOQ") == std::string::npos);
}

TEST_CASE("every piece of the project has a letter of its own") {
  for (const char* sample : {"orchard-gate", "kelp-lantern"}) {
    const Reading reading = read_project_file(sample_path(sample));
    std::set<std::string> letters;
    std::size_t pieces = 0;
    for (const Card& card : reading.project.cards)
      for (const Piece& one : card.pieces) {
        letters.insert(one.letter);
        ++pieces;
      }
    CHECK(letters.size() == pieces);
  }
}

TEST_CASE("what is built comes in the order it was written, the base first") {
  const Card& card = orchard().project.cards.at(0);
  REQUIRE(card.build.size() >= 5);
  CHECK(card.pieces.at(0).role == Piece::Role::Base);
  CHECK(card.build[0].kind == Build::Kind::Piece);
  CHECK(card.build[3].kind == Build::Kind::Ribbon);
  CHECK(card.build[4].kind == Build::Kind::Piece);
}

TEST_CASE("tiers and run are read with amounts and dates") {
  const Project& project = orchard().project;
  REQUIRE(project.tiers.size() == 4);
  CHECK(project.tiers[0].price->minor == 7900);
  CHECK(project.run.of_each == 3);
  CHECK(iso_text(project.run.reply_by->date) == "2027-03-16");
  CHECK(project.run.planned.at(1).kits == 13);
}
