#include "model/offset.h"

#include <clipper.hpp>

#include <algorithm>

namespace leafwright {

namespace {

constexpr double arc_tolerance = 5000; // nanometres: far below what scissors follow
constexpr int steps_of_a_curve = 48;

// Curves as short lines, ring by ring.
ClipperLib::Paths rings_of(const Path& path) {
  ClipperLib::Paths rings;
  Point here;
  const auto add = [&](double x, double y) {
    rings.back().emplace_back(static_cast<ClipperLib::cInt>(x), static_cast<ClipperLib::cInt>(y));
  };
  const auto real = [](Length a) { return static_cast<double>(a.nm); };
  for (const Segment& part : path) {
    if (part.kind == Segment::Kind::Close) continue;
    if (part.kind == Segment::Kind::Move || rings.empty()) rings.emplace_back();
    if (part.kind == Segment::Kind::Curve) {
      for (int i = 1; i < steps_of_a_curve; ++i) {
        const double t = static_cast<double>(i) / steps_of_a_curve, s = 1 - t;
        const double a = s * s * s, b = 3 * s * s * t, c = 3 * s * t * t, d = t * t * t;
        add(a * real(here.x) + b * real(part.control1.x) + c * real(part.control2.x) +
                d * real(part.end.x),
            a * real(here.y) + b * real(part.control1.y) + c * real(part.control2.y) +
                d * real(part.end.y));
      }
    }
    add(real(part.end.x), real(part.end.y));
    here = part.end;
  }
  return rings;
}

Path path_of(const ClipperLib::Paths& rings, Length by) {
  Path path;
  for (const ClipperLib::Path& ring : rings) {
    if (ring.size() < 3 || !ClipperLib::Orientation(ring)) continue; // a hole
    auto kind = Segment::Kind::Move;
    for (const ClipperLib::IntPoint& point : ring) {
      path.push_back({kind, {}, {}, {Length{point.X} + by, Length{point.Y} + by}});
      kind = Segment::Kind::Line;
    }
    path.push_back({Segment::Kind::Close, {}, {}, {}});
  }
  return path;
}

} // namespace

Shape offset_shape(const Shape& shape, Size size, Length by) {
  if (by <= Length{} || shape.outline == Shape::Outline::Rectangle) return shape;
  ClipperLib::Paths rings = rings_of(outline_path(shape, size)), whole, around;
  ClipperLib::SimplifyPolygons(rings, whole, ClipperLib::pftEvenOdd);
  std::erase_if(whole, [](const ClipperLib::Path& ring) { return !ClipperLib::Orientation(ring); });
  ClipperLib::ClipperOffset offset(2.0, arc_tolerance);
  offset.AddPaths(whole, ClipperLib::jtRound, ClipperLib::etClosedPolygon);
  offset.Execute(around, static_cast<double>(by.nm));
  Shape free;
  free.outline = Shape::Outline::Free;
  free.edge = shape.edge;
  free.path = path_of(around, by);
  free.path_size = {size.width + by * 2, size.height + by * 2};
  return free;
}

} // namespace leafwright
