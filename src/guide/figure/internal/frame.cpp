#include "guide/figure/frame.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace leafwright::figure {

namespace {

constexpr double quarter =
    0.5522847498307936; // control points of a quarter circle, 4/3 (sqrt 2 - 1)

double nm(Length a) { return static_cast<double>(a.nm); }

Length part(Length a, double share) { return from_nm(nm(a) * share); }

// Right angles are exact, so that a panel turned by 90 degrees keeps its exact size.
std::pair<double, double> cosine_sine(Angle angle) {
  constexpr std::int64_t full = 360'000'000;
  const std::int64_t udeg = ((angle.udeg % full) + full) % full;
  if (udeg == 0) return {1.0, 0.0};
  if (udeg == full / 4) return {0.0, 1.0};
  if (udeg == full / 2) return {-1.0, 0.0};
  if (udeg == full / 4 * 3) return {0.0, -1.0};
  const double radians = static_cast<double>(udeg) * 1e-6 * std::numbers::pi / 180.0;
  return {std::cos(radians), std::sin(radians)};
}

} // namespace

Length from_nm(double value) { return {static_cast<std::int64_t>(std::llround(value))}; }

Frame shifted(Point by) { return {1.0, 0.0, nm(by.x), nm(by.y)}; }

Frame turned_about(Angle angle, Point centre) {
  const auto [c, s] = cosine_sine(angle);
  const double x = nm(centre.x);
  const double y = nm(centre.y);
  return {c, s, x - (c * x - s * y), y - (s * x + c * y)};
}

Frame then(const Frame& inner, const Frame& outer) {
  return {outer.cosine * inner.cosine - outer.sine * inner.sine,
          outer.sine * inner.cosine + outer.cosine * inner.sine,
          outer.cosine * inner.dx - outer.sine * inner.dy + outer.dx,
          outer.sine * inner.dx + outer.cosine * inner.dy + outer.dy};
}

Frame lying_on(const Frame& carrier, Point at, Size size, Angle rotation) {
  const Frame own = turned_about(rotation, {size.width / 2, size.height / 2});
  return then(then(own, shifted(at)), carrier);
}

Point placed(const Frame& frame, Point point) {
  const double x = nm(point.x);
  const double y = nm(point.y);
  return {from_nm(frame.cosine * x - frame.sine * y + frame.dx),
          from_nm(frame.sine * x + frame.cosine * y + frame.dy)};
}

Path placed(const Frame& frame, Path path) {
  for (Segment& segment : path) {
    segment.control1 = placed(frame, segment.control1);
    segment.control2 = placed(frame, segment.control2);
    segment.end = placed(frame, segment.end);
  }
  return path;
}

Angle angle_of(const Frame& frame) {
  if (!frame.turned()) return {};
  const double turn = std::atan2(frame.sine, frame.cosine) * 180.0 / std::numbers::pi;
  return {std::llround(turn * 1e6)};
}

Rect placed_bounds(const Frame& frame, Rect rect) { return bounds(placed(frame, rectangle(rect))); }

Path rectangle(Rect rect) {
  return polyline({rect.origin,
                   {rect.right(), rect.top()},
                   {rect.right(), rect.bottom()},
                   {rect.left(), rect.bottom()}},
                  true);
}

Path rounded(Rect rect, Length radius) {
  radius = std::min({radius, rect.size.width / 2, rect.size.height / 2});
  if (radius <= Length{}) return rectangle(rect);
  const Length k = part(radius, 1.0 - quarter);
  const Length l = rect.left();
  const Length t = rect.top();
  const Length r = rect.right();
  const Length b = rect.bottom();
  using Kind = Segment::Kind;
  return {{Kind::Move, {}, {}, {l + radius, t}},
          {Kind::Line, {}, {}, {r - radius, t}},
          {Kind::Curve, {r - k, t}, {r, t + k}, {r, t + radius}},
          {Kind::Line, {}, {}, {r, b - radius}},
          {Kind::Curve, {r, b - k}, {r - k, b}, {r - radius, b}},
          {Kind::Line, {}, {}, {l + radius, b}},
          {Kind::Curve, {l + k, b}, {l, b - k}, {l, b - radius}},
          {Kind::Line, {}, {}, {l, t + radius}},
          {Kind::Curve, {l, t + k}, {l + k, t}, {l + radius, t}},
          {Kind::Close, {}, {}, {}}};
}

Path oval(Rect rect) {
  const Point c = rect.centre();
  const Length a = part(rect.size.width, 0.5 * quarter);
  const Length b = part(rect.size.height, 0.5 * quarter);
  using Kind = Segment::Kind;
  return {{Kind::Move, {}, {}, {c.x, rect.top()}},
          {Kind::Curve, {c.x + a, rect.top()}, {rect.right(), c.y - b}, {rect.right(), c.y}},
          {Kind::Curve, {rect.right(), c.y + b}, {c.x + a, rect.bottom()}, {c.x, rect.bottom()}},
          {Kind::Curve, {c.x - a, rect.bottom()}, {rect.left(), c.y + b}, {rect.left(), c.y}},
          {Kind::Curve, {rect.left(), c.y - b}, {c.x - a, rect.top()}, {c.x, rect.top()}},
          {Kind::Close, {}, {}, {}}};
}

Path segment(Point from, Point to) { return polyline({from, to}, false); }

Path polyline(const std::vector<Point>& points, bool closed) {
  Path path;
  path.reserve(points.size() + 1);
  for (const Point& point : points)
    path.push_back({path.empty() ? Segment::Kind::Move : Segment::Kind::Line, {}, {}, point});
  if (closed && !path.empty()) path.push_back({Segment::Kind::Close, {}, {}, {}});
  return path;
}

void append(Path& into, const Path& path) { into.insert(into.end(), path.begin(), path.end()); }

void append_dot(Path& into, Point centre) {
  into.push_back({Segment::Kind::Move, {}, {}, centre});
  into.push_back({Segment::Kind::Line, {}, {}, {centre.x + micrometres(10), centre.y}});
}

Rect grown(Rect rect, Length by) {
  return {{rect.left() - by, rect.top() - by},
          {rect.size.width + by * 2, rect.size.height + by * 2}};
}

Rect united(Rect a, Rect b) {
  const Point origin{std::min(a.left(), b.left()), std::min(a.top(), b.top())};
  return {origin,
          {std::max(a.right(), b.right()) - origin.x, std::max(a.bottom(), b.bottom()) - origin.y}};
}

Rect common(Rect a, Rect b) {
  const Point origin{std::max(a.left(), b.left()), std::max(a.top(), b.top())};
  const Length width = std::min(a.right(), b.right()) - origin.x;
  const Length height = std::min(a.bottom(), b.bottom()) - origin.y;
  if (width <= Length{} || height <= Length{}) return {origin, {}};
  return {origin, {width, height}};
}

} // namespace leafwright::figure
