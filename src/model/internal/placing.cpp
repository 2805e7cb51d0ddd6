#include "model/placing.h"

#include "model/outline.h"

#include <algorithm>

namespace leafwright {
namespace {

// How fine a ruler must be to read a length: the marks of an inch (1, 2, 4 ... 64) or of a
// millimetre (1, 2, 10) that it needs.
int fineness(Length length) {
  for (const int marks : {1, 2, 4, 8, 16, 32, 64})
    if (length.nm % (nm_per_inch / marks) == 0) return marks;
  for (const int marks : {1, 2, 10})
    if (length.nm % (nm_per_mm / marks) == 0) return marks;
  return 1000;
}

// Of two distances that place a thing alike, the one that is easier to measure: the shorter, unless
// the other is hardly longer and needs a coarser ruler.
bool easier(Length a, Length b) {
  constexpr Length hardly = millimetres(7);
  const int fine_a = fineness(a);
  const int fine_b = fineness(b);
  if (absolute(a - b) <= hardly && fine_a != fine_b) return fine_a < fine_b;
  return a < b;
}

Rect around(Rect a, Rect b) {
  const Point origin{std::min(a.left(), b.left()), std::min(a.top(), b.top())};
  return {origin,
          {std::max(a.right(), b.right()) - origin.x, std::max(a.bottom(), b.bottom()) - origin.y}};
}

// Different values of one coordinate, those within sight of each other taken as one.
std::vector<Length> lines_of(const std::vector<Point>& places, Length Point::*coordinate) {
  std::vector<Length> all;
  all.reserve(places.size());
  for (const Point& place : places) all.push_back(place.*coordinate);
  std::sort(all.begin(), all.end());
  std::vector<Length> out;
  for (const Length one : all)
    if (out.empty() || !alike(out.back(), one)) out.push_back(one);
  return out;
}

void measure_apart(Arrangement& arrangement, const std::vector<Point>& places, Size size) {
  const bool row = arrangement.kind == Arrangement::Kind::Row;
  Length Point::*const along = row ? &Point::x : &Point::y;
  const std::vector<Length> lines = lines_of(places, along);
  for (std::size_t i = 2; i < lines.size(); ++i)
    if (!alike(lines[i] - lines[i - 1], lines[1] - lines[0])) return;
  const Length gap = lines[1] - lines[0] - (row ? size.width : size.height);
  if (gap <= Length{}) return;
  Point at = places.front();
  at.*along = lines[0];
  arrangement.first = Rect{at, size};
  at.*along = lines[1];
  arrangement.second = Rect{at, size};
  arrangement.apart = gap;
}

} // namespace

bool alike(Length a, Length b) { return absolute(a - b) <= micrometres(50); }

Gaps gaps_in(Size carrier, Rect part) {
  return {part.left(), part.top(), carrier.width - part.right(), carrier.height - part.bottom()};
}

Length gap_at(const Gaps& gaps, Edge edge) {
  switch (edge) {
  case Edge::Left: return gaps.left;
  case Edge::Top: return gaps.top;
  case Edge::Right: return gaps.right;
  case Edge::Bottom: return gaps.bottom;
  }
  return {};
}

bool at_a_slant(Angle turned) { return turned.udeg % degrees(90).udeg != 0; }

Rect measured_part(Rect thing, Angle turned) {
  const Point middle = thing.centre();
  if (at_a_slant(turned)) return {middle, {}};
  if (turned.udeg % degrees(180).udeg == 0) return thing;
  const Size lying = thing.size.turned();
  return {{middle.x - lying.width / 2, middle.y - lying.height / 2}, lying};
}

Gaps measured_gaps(Size carrier, Rect thing, Angle turned) {
  Gaps gaps = gaps_in(carrier, measured_part(thing, turned));
  gaps.of_middle = at_a_slant(turned);
  return gaps;
}

Edge measured_across(const Gaps& gaps, const Position& position) {
  const bool from_right =
      position.across == Position::Across::FromRight ||
      (position.across == Position::Across::Centre && easier(gaps.right, gaps.left));
  return from_right ? Edge::Right : Edge::Left;
}

Edge measured_down(const Gaps& gaps, const Position& position) {
  const bool from_bottom =
      position.down == Position::Down::FromBottom ||
      (position.down == Position::Down::Centre && easier(gaps.bottom, gaps.top));
  return from_bottom ? Edge::Bottom : Edge::Top;
}

Arrangement arrangement_of(const std::vector<Point>& places, Size size, Angle turned) {
  Arrangement out;
  if (places.empty()) return out;
  out.of_middle = at_a_slant(turned);
  out.part = measured_part({places.front(), size}, turned);
  for (const Point place : places)
    out.part = around(out.part, measured_part({place, size}, turned));
  out.columns = lines_of(places, &Point::x).size();
  out.rows = lines_of(places, &Point::y).size();
  using enum Arrangement::Kind;
  out.kind = places.size() == 1                        ? One
             : out.rows == 1                           ? Row
             : out.columns == 1                        ? Column
             : out.rows * out.columns == places.size() ? Grid
                                                       : Scattered;
  if ((out.kind == Row || out.kind == Column) && turned.udeg == 0) measure_apart(out, places, size);
  return out;
}

} // namespace leafwright
