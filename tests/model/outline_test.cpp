#include "model/outline.h"

#include <doctest/doctest.h>

#include <cmath>
#include <random>
#include <vector>

using namespace leafwright;

namespace {

using Outline = Shape::Outline;

constexpr Size box{inches(2), inches(1, 1, 4)};

Shape shape(Outline outline) {
  Shape one;
  one.outline = outline;
  one.radius = inches(0, 1, 8);
  one.depth = inches(0, 1, 4);
  one.count = 5;
  return one;
}

std::size_t rings(const Path& path) {
  std::size_t count = 0;
  for (const Segment& segment : path) count += segment.kind == Segment::Kind::Close ? 1 : 0;
  return count;
}

bool near(Length a, Length b, std::int64_t nm = 2) { return absolute(a - b).nm <= nm; }

bool near(Rect a, Rect b) {
  return near(a.left(), b.left()) && near(a.top(), b.top()) && near(a.right(), b.right()) &&
         near(a.bottom(), b.bottom());
}

// Points along a path, for measuring what the curves do between their ends.
std::vector<Point> samples(const Path& path) {
  std::vector<Point> points;
  Point here;
  for (const Segment& segment : path) {
    if (segment.kind == Segment::Kind::Close) continue;
    if (segment.kind == Segment::Kind::Curve)
      for (int i = 1; i < 100; ++i) {
        const double t = i / 100.0, s = 1 - t;
        const auto at = [&](Length a, Length b, Length c, Length d) {
          const auto nm = [](Length l) { return static_cast<double>(l.nm); };
          return Length{std::llround(s * s * s * nm(a) + 3 * s * s * t * nm(b) +
                                     3 * s * t * t * nm(c) + t * t * t * nm(d))};
        };
        points.push_back({at(here.x, segment.control1.x, segment.control2.x, segment.end.x),
                          at(here.y, segment.control1.y, segment.control2.y, segment.end.y)});
      }
    points.push_back(segment.end);
    here = segment.end;
  }
  return points;
}

} // namespace

TEST_CASE("every outline fills the box it is given, and a circle the shorter side of it") {
  for (const Outline outline :
       {Outline::Rectangle, Outline::Rounded, Outline::Oval, Outline::Polygon, Outline::Star,
        Outline::Scalloped, Outline::ScallopedCircle, Outline::Banner, Outline::Tag}) {
    CAPTURE(static_cast<int>(outline));
    CHECK(near(bounds(outline_path(shape(outline), box)), {{}, box}));
  }
  const Rect circle = bounds(outline_path(shape(Outline::Circle), box));
  CHECK(near(circle, {{inches(0, 3, 8), {}}, {box.height, box.height}}));
}

TEST_CASE("random outlines in random boxes fill them and stay inside") {
  std::mt19937 random(7);
  std::uniform_int_distribution<std::int64_t> side(1'000'000, 300'000'000);
  std::uniform_int_distribution<std::int64_t> detail(0, 40'000'000);
  std::uniform_int_distribution<int> corners(-3, 40);
  for (int i = 0; i < 400; ++i) {
    for (const Outline outline :
         {Outline::Rounded, Outline::Oval, Outline::Polygon, Outline::Star, Outline::Scalloped,
          Outline::ScallopedCircle, Outline::Banner, Outline::Tag}) {
      Shape one;
      one.outline = outline;
      one.radius = {detail(random)};
      one.depth = {detail(random)};
      one.count = corners(random);
      const Size size{{side(random)}, {side(random)}};
      CAPTURE(static_cast<int>(outline));
      CAPTURE(size.width.nm);
      CAPTURE(size.height.nm);
      CHECK(near(bounds(outline_path(one, size)), {{}, size}));
    }
  }
}

TEST_CASE("a circle strays less than 0.03 % of its radius") {
  const Size square{inches(2), inches(2)};
  const double radius = 25.4e6;
  double worst = 0;
  for (const Point& p : samples(outline_path(shape(Outline::Circle), square))) {
    const double dx = static_cast<double>((p.x - inches(1)).nm);
    const double dy = static_cast<double>((p.y - inches(1)).nm);
    worst = std::max(worst, std::abs(std::hypot(dx, dy) - radius) / radius);
  }
  CHECK(worst < 0.0003);
}

TEST_CASE("a rounded corner is never larger than half the shorter side") {
  Shape one = shape(Outline::Rounded);
  one.radius = inches(9);
  CHECK(near(bounds(outline_path(one, box)), {{}, box}));
  one.radius = {};
  CHECK(outline_path(one, box) == outline_path(Shape{}, box));
}

TEST_CASE("a tag has a hole unless there is no room for one") {
  CHECK(rings(outline_path(shape(Outline::Tag), box)) == 2);
  Shape small = shape(Outline::Tag);
  small.radius = inches(0, 3, 4);
  CHECK(rings(outline_path(small, box)) == 1);
  small.radius = {};
  CHECK(rings(outline_path(small, box)) == 1);
}

TEST_CASE("a scalloped edge has a whole number of bumps on each side") {
  Shape one = shape(Outline::Scalloped);
  const Path path = outline_path(one, {inches(2), inches(2)});
  // (2 in - two radii) / (two radii of 1/8 in) = 7 bumps a side, two quarter rounds each.
  CHECK(path.size() == 1 + 4 * 7 * 2 + 1);
}

TEST_CASE("a scalloped circle keeps between two circles and has its bumps all round") {
  Shape one = shape(Outline::ScallopedCircle);
  one.radius = inches(0, 1, 8);
  const Path path = outline_path(one, {inches(2), inches(2)});
  // 2 pi x 7/8 in / (two radii of 1/8 in) = 21.99 bumps, a multiple of four: 4 x 5; two quarter
  // rounds each.
  CHECK(path.size() == 1 + 20 * 2 + 1);
  double nearest = 1e9, farthest = 0;
  for (const Segment& segment : path) {
    if (segment.kind == Segment::Kind::Close) continue;
    const double from_middle = std::hypot(in_mm(segment.end.x) - 25.4, in_mm(segment.end.y) - 25.4);
    nearest = std::min(nearest, from_middle);
    farthest = std::max(farthest, from_middle);
  }
  CHECK(nearest == doctest::Approx(25.4 * 7 / 8).epsilon(0.001));
  CHECK(farthest == doctest::Approx(25.4).epsilon(0.001));
}

TEST_CASE("a free outline is scaled from its own box to the one it is given") {
  Shape one;
  one.outline = Outline::Free;
  one.path_size = {{100}, {50}};
  one.path = {{Segment::Kind::Move, {}, {}, {{0}, {0}}},
              {Segment::Kind::Line, {}, {}, {{100}, {25}}},
              {Segment::Kind::Curve, {{100}, {50}}, {{50}, {50}}, {{0}, {50}}},
              {Segment::Kind::Close, {}, {}, {}}};
  const Path path = outline_path(one, {{2000}, {3000}});
  CHECK(path[1].end == Point{{2000}, {1500}});
  CHECK(path[2].control2 == Point{{1000}, {3000}});
}

TEST_CASE("nothing is drawn in a box without area") {
  CHECK(outline_path(shape(Outline::Star), {inches(1), {}}).empty());
}

TEST_CASE("bounds follow a curve only as far as it reaches") {
  // A cubic from (0,0) to (100,0) with both controls 100 high reaches 75 (three quarters).
  const Path arch{
      {Segment::Kind::Move, {}, {}, {{0}, {0}}},
      {Segment::Kind::Curve, {{0}, {100'000}}, {{100'000}, {100'000}}, {{100'000}, {0}}}};
  CHECK(bounds(arch) == Rect{{}, {{100'000}, {75'000}}});
}

TEST_CASE("a quarter turn is exact and clockwise") {
  const Path line{{Segment::Kind::Move, {}, {}, {inches(1), {}}}};
  CHECK(turned(line, degrees(90), {})[0].end == Point{{}, inches(1)});
  CHECK(turned(line, degrees(-90), {})[0].end == Point{{}, -inches(1)});
  CHECK(turned(line, degrees(360), {}) == line);
}

TEST_CASE("turning there and back leaves a path within a nanometre or two") {
  const Path path = outline_path(shape(Outline::Star), box);
  const Path back = turned(turned(path, degrees(37), {}), degrees(-37), {});
  for (std::size_t i = 0; i < path.size(); ++i) {
    CHECK(near(path[i].end.x, back[i].end.x));
    CHECK(near(path[i].end.y, back[i].end.y));
  }
}

TEST_CASE("a turned rectangle takes the room that its corners take") {
  const auto room = [](Size size, Angle by) {
    return bounds(turned(outline_path({}, size), by, {})).size;
  };
  CHECK(room({inches(3), inches(1)}, degrees(90)) == Size{inches(1), inches(3)});
  CHECK(room({inches(3), inches(1)}, degrees(180)) == Size{inches(3), inches(1)});
  // A square at 45 degrees is as wide as its diagonal, the root of two.
  CHECK(near(room({millimetres(100), millimetres(100)}, degrees(45)).width, {141'421'357}));
  // A 3-4-5 triangle: 20 x 10 turned by atan(3/4) takes 20 * 0.8 + 10 * 0.6 = 22 across.
  const Size five = room({millimetres(20), millimetres(10)}, {36'869'898});
  CHECK(near(five.width, millimetres(22), 100));
  CHECK(near(five.height, millimetres(20), 100));
}
