#include "../measure/show.h"

#include "model/carrier.h"
#include "model/pop_up.h"

#include <doctest/doctest.h>

using namespace leafwright;

namespace {

Card folded_card(Form::Kind form) {
  Card card;
  card.form.kind = form;
  card.finished = {millimetres(105), millimetres(148)};
  card.plan = plan_of(card.form, card.finished);
  return card;
}

} // namespace

TEST_CASE("a pop-up is cut across the fold, and its front is a face of the card") {
  Card card = folded_card(Form::Kind::TopFold);
  PopUp box;
  box.id = "box";
  box.left = millimetres(30);
  box.width = millimetres(40);
  box.height = millimetres(50);
  box.depth = millimetres(20);
  add_pop_up(card, box);
  const PopUp& added = card.pop_ups.at(0);
  CHECK(pop_up_cut(card, added) ==
        Rect{{millimetres(30), millimetres(98)}, {millimetres(40), millimetres(70)}});
  // The top is as deep as the ground, the front as high as the back.
  CHECK(pop_up_front(card, added) ==
        Rect{{millimetres(30), millimetres(118)}, {millimetres(40), millimetres(50)}});
  CHECK(face_of(card, {Carrier::Kind::Face, added.face})->id == "box");
  CHECK(reach_when_closed(added, added.height) == millimetres(70));
  // 10 mm tall, at the foot: 20 to 30 mm from the fold when the card is closed.
  CHECK(pop_up_folded(added,
                      {{millimetres(5), millimetres(40)}, {millimetres(8), millimetres(10)}}) ==
        Rect{{millimetres(35), millimetres(20)}, {millimetres(8), millimetres(10)}});
}

TEST_CASE("only what opens upwards with one fold has a place for a pop-up") {
  CHECK(pop_up_fold(folded_card(Form::Kind::TopFold)) == millimetres(148));
  CHECK_FALSE(pop_up_fold(folded_card(Form::Kind::Gate)));
  CHECK_FALSE(pop_up_fold(folded_card(Form::Kind::SideFold)));
}

TEST_CASE("an easel folds its flap back over the leg and shows the inside below") {
  const Card card = folded_card(Form::Kind::Easel);
  REQUIRE(card.plan.leaves.size() == 3);
  CHECK(folded(card.plan.leaves[0], card.plan.leaves[0].on_base) ==
        Rect{{}, {millimetres(105), millimetres(74)}});
  CHECK_FALSE(card.plan.leaves[0].turned_over());
  CHECK(card.plan.leaves[1].turned_over());
  CHECK(leaves_part_free(card.plan));
  CHECK_FALSE(leaves_part_free(folded_card(Form::Kind::TopFold).plan));
}
