#include "model/carrier.h"

#include "model/form.h"

#include <doctest/doctest.h>

#include <optional>

using namespace leafwright;

namespace {

constexpr Size finished{inches(4, 1, 4), inches(5, 1, 2)};

// A folded card with a mat 1/8 in inside its front and a label on the mat.
struct Made {
  Project project;
  Card card;

  explicit Made(Form::Kind kind = Form::Kind::TopFold) {
    project.envelopes.emplace_back().size = {inches(5, 3, 4), inches(4, 3, 8)};
    card.form.kind = kind;
    card.finished = finished;
    card.plan = plan_of(card.form, finished);
    card.envelope = 0;
    card.pieces.resize(3);
    card.pieces[0].role = Piece::Role::Base;
    card.pieces[0].size = card.plan.unfolded;
    card.pieces[1].on = {Carrier::Kind::Face, face_index(card.plan, "front")};
    card.pieces[1].size = {inches(4), inches(5, 1, 4)};
    card.pieces[1].at = {inches(0, 1, 8), inches(0, 1, 8)};
    card.pieces[2].on = {Carrier::Kind::Piece, 1};
    card.pieces[2].size = {inches(2), inches(1)};
    card.pieces[2].at = {inches(1), inches(3)};
  }
};

} // namespace

TEST_CASE("a carrier is as large as its face, its piece or the envelope as it lies") {
  const Made made;
  CHECK(carrier_size(made.project, made.card, made.card.pieces[1].on) == finished);
  CHECK(carrier_size(made.project, made.card, made.card.pieces[2].on) == made.card.pieces[1].size);
  CHECK(carrier_size(made.project, made.card, {Carrier::Kind::EnvelopeFront}) ==
        Size{inches(5, 3, 4), inches(4, 3, 8)});
}

TEST_CASE("a carrier that is not known has no size") {
  Made made;
  made.card.envelope = -1;
  CHECK(carrier_size(made.project, made.card, {Carrier::Kind::Face, 99}) == Size{});
  CHECK(carrier_size(made.project, made.card, {Carrier::Kind::Piece, -1}) == Size{});
  CHECK(carrier_size(made.project, made.card, {Carrier::Kind::EnvelopeInside}) == Size{});
}

TEST_CASE("a pile is followed down to the face that carries it") {
  const Made made;
  const std::optional<PlacedOnFace> label = placed_on_face(made.project, made.card, 2);
  REQUIRE(label);
  CHECK(label->root == made.card.pieces[1].on);
  CHECK(label->box == Rect{{inches(1, 1, 8), inches(3, 1, 8)}, {inches(2), inches(1)}});
}

TEST_CASE("what lies on the base is seen inside, on the card opened flat") {
  const Made made;
  const Carrier base{Carrier::Kind::Piece, 0};
  CHECK(root_of(made.card, base) ==
        Carrier{Carrier::Kind::Face, face_index(made.card.plan, "opened")});
  CHECK(seen_in(made.card, base, View::Inside));
  CHECK_FALSE(seen_in(made.card, base, View::Front));
}

TEST_CASE("what lies on the base of a flat card is seen on its front") {
  CHECK(seen_in(Made(Form::Kind::Flat).card, {Carrier::Kind::Piece, 0}, View::Front));
}

TEST_CASE("pieces that carry each other lie nowhere") {
  Made made;
  made.card.pieces[1].on = {Carrier::Kind::Piece, 2};
  CHECK_FALSE(root_of(made.card, {Carrier::Kind::Piece, 2}));
  CHECK_FALSE(placed_on_face(made.project, made.card, 2));
}

TEST_CASE("a band round the envelope is seen up to its edges") {
  Made made;
  Piece& band = made.card.pieces[1];
  band.role = Piece::Role::Band;
  band.on = {Carrier::Kind::EnvelopeFront};
  band.size = {inches(12), inches(1)};
  band.at = {-inches(3), inches(2)};
  CHECK(goes_round(made.project, made.card, band));
  CHECK(visible_box(made.project, made.card, band) ==
        Rect{{{}, inches(2)}, {inches(5, 3, 4), inches(1)}});
}

TEST_CASE("a band shorter than what carries it does not go round") {
  Made made;
  Piece& band = made.card.pieces[1];
  band.role = Piece::Role::Band;
  band.size = {inches(4), inches(1)};
  CHECK_FALSE(goes_round(made.project, made.card, band));
}

TEST_CASE("a thing of the making lies on what its piece says; the base lies on nothing") {
  const Made made;
  CHECK(carrier_of(made.card, {Build::Kind::Piece, 2}) == Carrier{Carrier::Kind::Piece, 1});
  CHECK_FALSE(carrier_of(made.card, {Build::Kind::Piece, 0}));
  CHECK_FALSE(carrier_of(made.card, {Build::Kind::Ribbon, 0}));
}
