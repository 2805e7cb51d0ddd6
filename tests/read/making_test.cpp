#include "model/form.h"
#include "support.h"

#include <algorithm>

// Where adhesive goes, what is done to a piece, and what makes a card stand, as they are written.

using namespace leafwright;
using namespace leafwright::test;

namespace {

Piece last_piece(const Reading& reading) {
  REQUIRE(reading.ok());
  return reading.project.cards.at(0).pieces.back();
}

bool tells(const Reading& reading, std::string_view code) {
  return std::ranges::count(codes(reading), code) == 1;
}

std::string panel(std::string_view attributes, std::string_view content = "") {
  return R"(<panel id="mat" stock="kraft" size="3 x 2" )" + std::string(attributes) + ">" +
         std::string(content) + "</panel>";
}

} // namespace

TEST_CASE("where a piece is stuck is read, and its like takes it over") {
  const Piece pocket = last_piece(read_text(project_with(panel(R"(stuck="open-top")"))));
  CHECK(pocket.attach.where == Attach::Where::OpenTop);
  const Piece other = last_piece(
      read_text(project_with(panel(R"(stuck="left-half")") + R"(<panel id="other" like="mat"/>)")));
  CHECK(other.attach.where == Attach::Where::LeftHalf);
}

TEST_CASE("what is stuck with nothing is stuck nowhere") {
  CHECK(
      tells(read_text(project_with(panel(R"(with="nothing" stuck="middle")"))), "read-either-or"));
}

TEST_CASE("a technique knows which images stand before it") {
  const std::string_view stamp = R"(<stamp image="tree" ink="moss"/>)";
  const Piece piece = last_piece(read_text(project_with(panel(
      "", R"(<wash ink="rust" area="the sky" dry="20"/>)" + std::string(stamp) + "<glitter/>"))));
  REQUIRE(piece.finishes.size() == 2);
  CHECK(piece.finishes[0].kind == Finish::Kind::Washed);
  CHECK(piece.finishes[0].images == 0);
  CHECK(piece.finishes[0].dry == 20);
  CHECK(piece.finishes[1].images == 1);
}

TEST_CASE("a folder that is a tool of the project is found by its id") {
  const Reading reading = read_text(
      project_with(panel("", R"(<emboss with="leaves"/>)"),
                   R"(<tool id="leaves" for="emboss" size="4 1/4 x 5 1/2" pattern="leaves"/>)"));
  CHECK(last_piece(reading).finishes.at(0).tool == 0);
  CHECK(reading.project.tools.at(0).pattern == Stock::Pattern::Leaves);
}

TEST_CASE("a notch opens the open side of its pocket") {
  const Piece pocket =
      last_piece(read_text(project_with(panel(R"(stuck="open-left")", "<notch/>"))));
  CHECK(pocket.windows.at(0).notch == Window::Notch::Left);
}

TEST_CASE("the front of a pop-up is a face to lie on") {
  const std::string boxed = R"(<project xmlns="urn:leafwright:project" version="1" id="p" title="P">
<supplies><stock id="kraft" sheet="letter"/></supplies>
<card id="c" title="C" form="FORM" size="A2"><base stock="kraft">
<pop-up id="box" at="1" width="1" height="2" depth="1"/></base>
<panel id="tree" stock="kraft" on="box" size="1/2 x 1" with="nothing"/></card></project>)";
  const auto of = [&](std::string_view form) {
    std::string text = boxed;
    return text.replace(text.find("FORM"), 4, form);
  };
  const Reading reading = read_text(of("top-fold"));
  const Piece tree = last_piece(reading);
  const Card& card = reading.project.cards.at(0);
  CHECK(tree.on.index == face_index(card.plan, "box"));
  CHECK(card.plan.faces.at(static_cast<std::size_t>(tree.on.index)).size ==
        Size{inches(1), inches(2)});
  CHECK(tells(read_text(of("gate")), "read-either-or"));
}

TEST_CASE("a mat takes the outline of a die or a piece, larger all round") {
  const Piece mat = last_piece(read_text(
      project_with(R"(<panel id="mat" stock="kraft" outline-of="label-die" offset="1/8"/>)")));
  CHECK(mat.size == Size{inches(2, 3, 4), inches(1, 1, 16)});
  CHECK(mat.shape.outline == Shape::Outline::Free);
  CHECK(mat.cut == Piece::CutBy::Scissors);
  const Piece plain = last_piece(read_text(project_with(
      panel("") + R"(<panel id="under" stock="kraft" outline-of="mat" offset="1/4"/>)")));
  CHECK(plain.size == Size{inches(3, 1, 2), inches(2, 1, 2)});
  CHECK(plain.cut == Piece::CutBy::Trimmer);
}

TEST_CASE("an outline that is not there, or lies inside, is told once") {
  CHECK(tells(
      read_text(project_with(R"(<panel id="mat" stock="kraft" outline-of="moon" offset="1/8"/>)")),
      "read-unknown-name"));
  CHECK(tells(read_text(project_with(
                  R"(<panel id="mat" stock="kraft" outline-of="label-die" offset="0 - 1/8"/>)")),
              "read-measure"));
}

TEST_CASE("pieces that run round each other are a circle of measures") {
  const Reading reading = read_text(project_with(
      R"(<panel id="a" stock="kraft" outline-of="b" offset="1/8"/>
<panel id="b" stock="kraft" outline-of="a" offset="1/8"/>)"));
  CHECK(std::ranges::count(codes(reading), "read-circle") >= 1);
}
