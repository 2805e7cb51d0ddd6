#include "found.h"

#include "model/form.h"
#include "model/pop_up.h"

#include <cmath>

using namespace leafwright;
using namespace leafwright::testing;

namespace {

Carrier face(const Card& card, std::string_view id) { return on_face(face_index(card.plan, id)); }

// An easel of 4 1/4 x 5 1/2 in: a panel of that size on the flap, and a stopper.
Project easel(Attach::Where where, Length stopper) {
  return changed([&](Project&, Card& card) {
    card.pieces.resize(1);
    card.build.resize(1);
    card.ribbons.clear();
    card.embellishments.clear();
    card.face_stampings.clear();
    card.steps.clear();
    refold(card, {Form::Kind::Easel, 0});
    Piece front_panel = panel("panel", cream, face(card, "flap"), card.finished, {});
    front_panel.attach = stuck_with(tape);
    front_panel.attach.where = where;
    add(card, front_panel);
    if (stopper == Length{}) return;
    Piece bar = panel("stopper", cream, face(card, "inside"), {inches(2), inches(0, 1, 2)},
                      {inches(1), stopper});
    bar.attach = stuck_with(foam);
    add(card, bar);
  });
}

// The small card with a pop-up of that height and depth in the middle of its fold.
Project with_pop_up(Length height, Length depth) {
  return changed([&](Project&, Card& card) {
    PopUp box;
    box.id = "box";
    box.left = inches(1);
    box.width = inches(1);
    box.height = height;
    box.depth = depth;
    add_pop_up(card, box);
  });
}

Project with_layer(Length tall, Length top) {
  Project project = with_pop_up(inches(1), inches(1));
  Card& card = project.cards[0];
  Piece layer =
      panel("tree", cream, face(card, "box"), {inches(0, 3, 4), tall}, {inches(0, 1, 8), top});
  layer.attach = stuck_with(tape);
  add(card, layer);
  return project;
}

} // namespace

TEST_CASE("the panel of an easel is stuck to the flap alone") {
  CHECK(says(easel(Attach::Where::AllOver, inches(4)), "fit-easel"));
  CHECK_FALSE(says(easel(Attach::Where::TopHalf, inches(4)), "fit-easel"));
}

TEST_CASE("an easel without a panel has nothing to stand up") {
  Project project = easel(Attach::Where::TopHalf, inches(4));
  project.cards[0].pieces.erase(project.cards[0].pieces.begin() + 1);
  project.cards[0].build.pop_back();
  CHECK(says(project, "fit-easel"));
}

TEST_CASE("an easel wants a stopper, raised and nearer than leg and panel reach") {
  CHECK(says(easel(Attach::Where::TopHalf, {}), "fit-easel-stopper"));
  CHECK_FALSE(says(easel(Attach::Where::TopHalf, inches(4)), "fit-easel-stopper"));
  Project flat = easel(Attach::Where::TopHalf, inches(4));
  flat.cards[0].pieces.back().attach = stuck_with(tape);
  CHECK(says(flat, "fit-easel-stopper"));
}

TEST_CASE("the place told for a stopper makes the panel lean at about seventy degrees") {
  const std::string fix =
      plain(found(easel(Attach::Where::TopHalf, {}), "fit-easel-stopper").at(0).fix);
  CHECK(fix == "raise a piece on the inside, its upper edge 1 7/8 in below the fold");
  // Leg and lower half of the panel are 2 3/4 in each: law of cosines, from outside the program.
  const double foot = 1.875, leg = 2.75;
  const double lean = std::acos(foot / 2 / leg) / 3.14159265358979 * 180;
  CHECK(lean > 68);
  CHECK(lean < 72);
}

TEST_CASE("a pop-up closes inside its card when height and depth are no more than a leaf") {
  CHECK_FALSE(says(with_pop_up(inches(3), inches(2, 1, 2)), "fit-pop-up"));
  const Findings some = found(with_pop_up(inches(3), inches(2, 5, 8)), "fit-pop-up");
  REQUIRE(some.size() == 1);
  CHECK(plain(some[0].found) == "the pop-up of “Trees” reaches 5 5/8 in from the fold when the "
                                "card is closed, 1/8 in past its edge");
}

TEST_CASE("a layer on a pop-up closes with it and ends at its foot") {
  // Foot at 1 in from the fold when closed, so 4 1/2 in are left above it.
  CHECK_FALSE(says(with_layer(inches(4), inches(1) - inches(4)), "fit-pop-up-layer"));
  CHECK(says(with_layer(inches(5), inches(1) - inches(5)), "fit-pop-up-layer"));
  CHECK(says(with_layer(inches(1), inches(0, 1, 4)), "fit-pop-up-layer"));
}

TEST_CASE("a layer on a pop-up that closes inside its card makes the card no larger") {
  CHECK_FALSE(says(with_layer(inches(4), inches(1) - inches(4)), "fit-envelope"));
}

TEST_CASE("a layer on a pop-up does not lie across the fold") {
  CHECK_FALSE(says(with_layer(inches(0, 3, 4), inches(0, 1, 8)), "fit-over-fold"));
}
