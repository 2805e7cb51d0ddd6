#include "page/context.h"

#include "model/outline.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <vector>

using namespace leafwright;
using namespace leafwright::page;

TEST_CASE("cards on a cover stay in their region and show their middles") {
  const Rect region{{millimetres(20), millimetres(80)}, {millimetres(170), millimetres(150)}};
  for (int count = 1; count <= 9; ++count) {
    CAPTURE(count);
    std::vector<Size> cards(static_cast<std::size_t>(count),
                            Size{inches(4, 1, 4), inches(5, 1, 2)});
    const CoverArrangement arrangement = arrange_cover(cards, region, 1.0);
    REQUIRE(arrangement.cards.size() == cards.size());
    std::vector<Rect> boxes;
    for (const LaidCard& card : arrangement.cards) {
      const Size printed{Length{static_cast<std::int64_t>(static_cast<double>(cards[0].width.nm) *
                                                          arrangement.scale)},
                         Length{static_cast<std::int64_t>(static_cast<double>(cards[0].height.nm) *
                                                          arrangement.scale)}};
      const Size outer = bounds(turned(outline_path({}, printed), card.turned, {})).size;
      const Rect box{{card.centre.x - outer.width / 2, card.centre.y - outer.height / 2}, outer};
      const Length slack = millimetres(1);
      CHECK(box.left() >= region.left() - slack);
      CHECK(box.right() <= region.right() + slack);
      CHECK(box.top() >= region.top() - slack);
      CHECK(box.bottom() <= region.bottom() + slack);
      // No card laid before this one has its middle under it.
      for (const Rect& earlier : boxes) {
        const Point middle = earlier.centre();
        CHECK_FALSE(box.overlaps({middle, {millimetres(1), millimetres(1)}}));
      }
      boxes.push_back(box);
    }
  }
}

TEST_CASE("cards of several sizes on a cover share out its width by their own") {
  // A tall accordion beside a wide tent card: in cells of 148 mm each they would be drawn at 0.4.
  const std::vector<Size> cards{{millimetres(105), millimetres(148)},
                                {millimetres(70), millimetres(148)},
                                {millimetres(148), millimetres(105)},
                                {millimetres(105), millimetres(148)},
                                {millimetres(60), millimetres(110)}};
  const Rect region{{millimetres(15), millimetres(60)}, {millimetres(180), millimetres(190)}};
  const CoverArrangement arrangement = arrange_cover(cards, region, 1.0);
  CHECK(arrangement.scale > 0.55);
  for (const LaidCard& card : arrangement.cards) {
    const Size size{times(cards[card.card].width, arrangement.scale),
                    times(cards[card.card].height, arrangement.scale)};
    const Size outer = bounds(turned(outline_path({}, size), card.turned, {})).size;
    CHECK(card.centre.x - outer.width / 2 >= region.left() - millimetres(1));
    CHECK(card.centre.x + outer.width / 2 <= region.right() + millimetres(1));
    CHECK(card.centre.y - outer.height / 2 >= region.top() - millimetres(1));
    CHECK(card.centre.y + outer.height / 2 <= region.bottom() + millimetres(1));
  }
}

TEST_CASE("a cover without cards has no arrangement") {
  CHECK(arrange_cover({}, Rect{{}, {millimetres(100), millimetres(100)}}, 1.0).cards.empty());
}
