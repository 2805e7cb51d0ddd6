#include "../measure/show.h"

#include "model/offset.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

using namespace leafwright;

namespace {

Shape shape_of(Shape::Outline outline, int count = 0) {
  Shape shape;
  shape.outline = outline;
  shape.count = count;
  shape.depth = millimetres(8);
  shape.radius = millimetres(3);
  return shape;
}

constexpr Size across{millimetres(40), millimetres(40)};
constexpr Length by = millimetres(3);
constexpr Length hair = micrometres(10);

double millimetres_between(Point a, Point b) {
  return std::hypot(static_cast<double>((a.x - b.x).nm), static_cast<double>((a.y - b.y).nm)) / 1e6;
}

} // namespace

TEST_CASE("round a circle runs a circle that is larger by the offset on every side") {
  const Shape mat = offset_shape(shape_of(Shape::Outline::Circle), across, by);
  CHECK(mat.path_size == Size{millimetres(46), millimetres(46)});
  const Point centre{millimetres(23), millimetres(23)};
  for (const Segment& part : mat.path)
    if (part.kind != Segment::Kind::Close)
      CHECK(millimetres_between(part.end, centre) == doctest::Approx(23).epsilon(0.0005));
}

TEST_CASE("round a corner runs an arc about it") {
  // The top point of a star lies in the middle of its upper edge, 3 mm below that of the mat.
  const Shape mat = offset_shape(shape_of(Shape::Outline::Star, 5), across, by);
  const Point tip{millimetres(23), by};
  int on_arc = 0;
  for (const Segment& part : mat.path)
    if (part.kind != Segment::Kind::Close && part.end.y < by)
      on_arc += std::abs(millimetres_between(part.end, tip) - 3) < 0.01 ? 1 : 0;
  CHECK(on_arc > 5);
}

TEST_CASE("the box of a mat is that of its layer and the offset on every side") {
  for (const auto outline : {Shape::Outline::Circle, Shape::Outline::Oval, Shape::Outline::Rounded,
                             Shape::Outline::Scalloped, Shape::Outline::Banner}) {
    const Shape mat = offset_shape(shape_of(outline), across, by);
    const Rect box = bounds(mat.path);
    CHECK(absolute(box.left()) <= hair);
    CHECK(absolute(box.top()) <= hair);
    CHECK(absolute(box.right() - millimetres(46)) <= hair);
    CHECK(absolute(box.bottom() - millimetres(46)) <= hair);
  }
}

TEST_CASE("a mat has no hole where its layer has one") {
  const Shape mat = offset_shape(shape_of(Shape::Outline::Tag), across, by);
  CHECK(std::ranges::count(mat.path, Segment::Kind::Close, &Segment::kind) == 1);
}

TEST_CASE("round a rectangle stays a rectangle, and no offset changes nothing") {
  CHECK(offset_shape(shape_of(Shape::Outline::Rectangle), across, by).outline ==
        Shape::Outline::Rectangle);
  const Shape star = shape_of(Shape::Outline::Star, 5);
  CHECK(offset_shape(star, across, {}) == star);
}
