#include "model/technique.h"
#include "model/work.h"

#include <doctest/doctest.h>

using namespace leafwright;

namespace {

Piece with(std::initializer_list<Finish::Kind> kinds) {
  Piece piece;
  for (const Finish::Kind kind : kinds) piece.finishes.emplace_back().kind = kind;
  return piece;
}

} // namespace

TEST_CASE("techniques of one piece dry one after the other, pieces side by side") {
  Card card;
  CHECK(drying_minutes(card) == 0);
  card.pieces = {with({Finish::Kind::Washed, Finish::Kind::Splattered}),
                 with({Finish::Kind::Washed})};
  CHECK(drying_minutes(card) == 15); // 10 and 5
}

TEST_CASE("the author's own minutes of drying come first") {
  Finish wash;
  wash.kind = Finish::Kind::Washed;
  wash.dry = 0;
  CHECK(drying_minutes(wash) == 0);
}

TEST_CASE("a technique calls for its kind of work") {
  CHECK(works_on(with({Finish::Kind::Washed})).has(Work::Wash));
  CHECK(works_on(with({Finish::Kind::Stitched})).has(Work::Stitch));
}

TEST_CASE(
    "edges inked with a tool of their own take no sponge, blending takes a brush all the same") {
  Piece edges = with({Finish::Kind::EdgeInked});
  edges.finishes[0].with = "cotton bud";
  CHECK_FALSE(works_on(edges).has(Work::Ink));
  Piece blended = with({Finish::Kind::Blended});
  blended.finishes[0].with = "leaf stencil";
  CHECK(works_on(blended).has(Work::Blend));
}
