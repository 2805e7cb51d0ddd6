#include "page/flow.h"

#include <doctest/doctest.h>

#include <cmath>

using namespace leafwright;
using namespace leafwright::page;

namespace {

double distance_mm(Point a, Point b) { return std::hypot(in_mm(a.x - b.x), in_mm(a.y - b.y)); }

} // namespace

TEST_CASE("turning a drawing keeps every distance to a few nanometres") {
  Drawing drawing;
  drawing.size = {millimetres(60), millimetres(80)};
  Fill fill;
  fill.path = rectangle({{millimetres(5), millimetres(7)}, {millimetres(30), millimetres(41)}});
  drawing.items.emplace_back(fill);
  for (const int turn : {-90, -7, 3, 45, 90, 180}) {
    CAPTURE(turn);
    const Drawing turned = turned_drawing(drawing, degrees(turn));
    const Path& path = std::get<Fill>(turned.items[0]).path;
    for (std::size_t i = 0; i < 4; ++i)
      for (std::size_t k = 0; k < 4; ++k)
        CHECK(distance_mm(path[i].end, path[k].end) ==
              doctest::Approx(distance_mm(fill.path[i].end, fill.path[k].end)).epsilon(1e-7));
  }
}

TEST_CASE("a quarter turn clockwise brings the top edge to the right") {
  Drawing drawing;
  drawing.size = {millimetres(60), millimetres(80)};
  drawing.items.emplace_back(Mark{
      "template", "a", {{}, {millimetres(60), millimetres(2)}}, {millimetres(60), millimetres(2)}});
  const Drawing turned = turned_drawing(drawing, degrees(90));
  CHECK(std::llabs(turned.size.width.nm - millimetres(80).nm) <= 2);
  CHECK(std::llabs(turned.size.height.nm - millimetres(60).nm) <= 2);
  const Rect box = std::get<Mark>(turned.items[0]).box;
  CHECK(in_mm(box.left()) == doctest::Approx(78));
  CHECK(in_mm(box.size.height) == doctest::Approx(60));
}

TEST_CASE("a turned drawing lies within its own size") {
  Drawing drawing;
  drawing.size = {millimetres(40), millimetres(90)};
  drawing.items.emplace_back(Fill{rectangle({{}, drawing.size}), {}, 1.0});
  const Drawing turned = turned_drawing(drawing, degrees(-17));
  for (const Segment& segment : std::get<Fill>(turned.items[0]).path) {
    if (segment.kind == Segment::Kind::Close) continue;
    CHECK(segment.end.x >= Length{-2});
    CHECK(segment.end.y >= Length{-2});
    CHECK(segment.end.x <= turned.size.width + Length{2});
    CHECK(segment.end.y <= turned.size.height + Length{2});
  }
}

TEST_CASE("rounding of points does not cost a step of the grid") {
  CHECK(on_grid(points(3.5) * 2 + points(14), points(7)) == points(7) * 3);
  CHECK(on_grid(points(14.2), points(7)) == points(7) * 3);
  CHECK(on_grid(Length{}, points(7)) == Length{});
}
