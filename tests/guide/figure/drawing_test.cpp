#include "guide/figure/drawing.h"
#include "guide/figure/frame.h"
#include "guide/figure/internal/label_layout.h"

#include <doctest/doctest.h>

using namespace leafwright;
using namespace leafwright::figure;

TEST_CASE("a moved drawing carries its paths, words, pictures and marks along") {
  Drawing drawing;
  const Rect box{{millimetres(1), millimetres(2)}, {millimetres(3), millimetres(4)}};
  drawing.items.emplace_back(PushClip{rectangle(box)});
  drawing.items.emplace_back(Fill{rectangle(box), {}, 1.0});
  drawing.items.emplace_back(PopClip{});
  drawing.items.emplace_back(TextRun{{}, box.origin, {}, {}, {}});
  drawing.items.emplace_back(Mark{"cut", "mat", box, box.size});
  std::vector<DrawItem> items;
  append_moved(items, drawing, {millimetres(10), -millimetres(1)});
  const Rect moved_box{{millimetres(11), millimetres(1)}, box.size};
  REQUIRE(items.size() == 5);
  CHECK(bounds(std::get<PushClip>(items.at(0)).path) == moved_box);
  CHECK(bounds(std::get<Fill>(items.at(1)).path) == moved_box);
  CHECK(std::get<TextRun>(items.at(3)).baseline == moved_box.origin);
  CHECK(std::get<Mark>(items.at(4)).box == moved_box);
  CHECK(std::get<Mark>(items.at(4)).real == box.size);
}

TEST_CASE("a thing on a panel that is turned by a right angle keeps whole nanometres") {
  const Frame panel = lying_on(Frame{}, {millimetres(10), millimetres(10)},
                               {millimetres(40), millimetres(20)}, degrees(90));
  // The panel's middle stays at (30, 20); its top left corner goes to the top right.
  CHECK(placed(panel, Point{}) == Point{millimetres(40), Length{}});
  CHECK(placed_bounds(panel, {{}, {millimetres(40), millimetres(20)}}) ==
        Rect{{millimetres(20), Length{}}, {millimetres(20), millimetres(40)}});
}

TEST_CASE("two extension lines may cross, a dimension line may not be crossed") {
  using Kind = LabelStroke::Kind;
  const auto level = [](Kind kind) { return LabelStroke{kind, 0, 5, 10, 5}; };
  const auto upright = [](Kind kind) { return LabelStroke{kind, 5, 0, 5, 10}; };
  CHECK_FALSE(clash(level(Kind::Extension), upright(Kind::Extension)));
  CHECK(clash(level(Kind::Dimension), upright(Kind::Extension)));
  CHECK(clash(level(Kind::Leader), upright(Kind::Dimension)));
}

TEST_CASE("dimension lines of a chain may meet at their ends and not lie on each other") {
  using Kind = LabelStroke::Kind;
  const LabelStroke first{Kind::Dimension, 0, 0, 10, 0};
  CHECK_FALSE(clash(first, {Kind::Dimension, 10, 0, 20, 0}));
  CHECK(clash(first, {Kind::Dimension, 9, 0, 20, 0}));
}

TEST_CASE("a label left over pushes another aside when both have a place") {
  const auto at = [](double x, double cost) {
    Candidate candidate;
    candidate.boxes.push_back({x, 0, x + 10, 5});
    candidate.cost = cost;
    return candidate;
  };
  // The first takes the only place of the second unless it steps aside.
  std::vector<std::vector<Candidate>> labels{{at(0, 0), at(20, 5)}, {at(5, 0)}};
  const std::vector<int> chosen = choose_places(labels);
  CHECK(chosen == std::vector<int>{1, 0});
}
