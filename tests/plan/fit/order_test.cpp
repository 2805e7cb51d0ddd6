#include "found.h"

#include <algorithm>

using namespace leafwright;
using namespace leafwright::testing;

namespace {

Piece tag_on_front() {
  Piece tag = panel("tag", cream, on_face(front), {inches(1), inches(1, 1, 2)}, {inches(3), {}});
  tag.shape.outline = Shape::Outline::Tag;
  tag.shape.radius = inches(0, 1, 16);
  tag.attach = stuck_with(tape);
  return tag;
}

void knot(Card& card, Carrier on) {
  RibbonUse use;
  use.ribbon = 0;
  use.as = RibbonUse::As::Knot;
  use.on = on;
  card.ribbons.push_back(use);
  card.build.push_back({Build::Kind::Ribbon, static_cast<int>(card.ribbons.size()) - 1});
}

} // namespace

TEST_CASE("a cord is threaded before its piece is stuck, or the maker is told") {
  const auto with_knot = [](bool right_after) {
    return changed([&](Project&, Card& card) {
      const int tag = static_cast<int>(card.pieces.size());
      add(card, tag_on_front());
      if (!right_after)
        add(card, panel("later", cream, on_face(front), {inches(1), inches(1)}, {}));
      knot(card, on_piece(tag));
    });
  };
  CHECK_FALSE(says(with_knot(true), "fit-order-thread"));
  CHECK(says(with_knot(false), "fit-order-thread"));
}

TEST_CASE("what is pressed onto a piece that hangs over the edge asks for support") {
  const auto pressed = [](bool hangs) {
    return changed([&](Project&, Card& card) {
      Piece ring = panel("ring", cream, on_face(front), {inches(2), inches(2)}, {inches(1), {}});
      ring.attach = stuck_with(tape);
      ring.may_overhang = hangs;
      const int carrier = static_cast<int>(card.pieces.size());
      add(card, ring);
      Piece middle = panel("middle", cream, on_piece(carrier), {inches(1), inches(1)}, {});
      middle.attach = stuck_with(tape);
      add(card, middle);
    });
  };
  CHECK_FALSE(says(pressed(false), "fit-order-press"));
  CHECK(says(pressed(true), "fit-order-press"));
}

TEST_CASE("a ribbon is wrapped before the stamped layer that it would cross") {
  const auto wrapped = [](bool first) {
    return changed([&](Project&, Card& card) {
      const auto inside = std::ranges::find(card.plan.faces, "inside-top", &Face::id);
      REQUIRE(inside != card.plan.faces.end());
      Piece back = panel("back", cream,
                         {Carrier::Kind::Face, static_cast<int>(inside - card.plan.faces.begin())},
                         {inches(4), inches(5)}, {});
      back.stamped.emplace_back();
      RibbonUse use;
      use.ribbon = 0;
      use.as = RibbonUse::As::Wrap;
      use.on = on_face(front);
      use.at = inches(2);
      card.ribbons = {use};
      std::erase_if(card.build,
                    [](const Build& build) { return build.kind == Build::Kind::Ribbon; });
      if (first) card.build.push_back({Build::Kind::Ribbon, 0});
      add(card, back);
      if (!first) card.build.push_back({Build::Kind::Ribbon, 0});
    });
  };
  CHECK_FALSE(says(wrapped(true), "fit-order-wrap"));
  CHECK(says(wrapped(false), "fit-order-wrap"));
}
