#pragma once

#include "measure/length.h"

#include <algorithm>
#include <vector>

// Points, sizes and rectangles. x grows to the right and y grows DOWN, as a card is read.

namespace leafwright {

struct Point {
  Length x, y;
  friend constexpr bool operator==(Point, Point) = default;
  friend constexpr Point operator+(Point a, Point b) { return {a.x + b.x, a.y + b.y}; }
  friend constexpr Point operator-(Point a, Point b) { return {a.x - b.x, a.y - b.y}; }
};

struct Size {
  Length width, height;
  friend constexpr bool operator==(Size, Size) = default;
  constexpr Size turned() const { return {height, width}; }
};

struct Rect {
  Point origin; // top left corner
  Size size;
  friend constexpr bool operator==(Rect, Rect) = default;
  constexpr Length left() const { return origin.x; }
  constexpr Length top() const { return origin.y; }
  constexpr Length right() const { return origin.x + size.width; }
  constexpr Length bottom() const { return origin.y + size.height; }
  constexpr Point centre() const { return {origin.x + size.width / 2, origin.y + size.height / 2}; }
  constexpr bool contains(Rect inner) const {
    return inner.left() >= left() && inner.top() >= top() && inner.right() <= right() &&
           inner.bottom() <= bottom();
  }
  constexpr bool overlaps(Rect other) const { // touching edges do not overlap
    return left() < other.right() && other.left() < right() && top() < other.bottom() &&
           other.top() < bottom();
  }
};

constexpr bool fits(Size inner, Size outer) {
  return inner.width <= outer.width && inner.height <= outer.height;
}

// An area in square micrometres, rounded to the nearest: a letter sheet is 6.0e10.
struct Area {
  std::int64_t um2 = 0;
  friend constexpr auto operator<=>(Area, Area) = default; // NOLINT(modernize-use-nullptr)
  friend constexpr Area operator+(Area a, Area b) { return {a.um2 + b.um2}; }
  friend constexpr Area operator-(Area a, Area b) { return {a.um2 - b.um2}; }
  friend constexpr Area operator*(Area a, std::int64_t times) { return {a.um2 * times}; }
  constexpr Area& operator+=(Area other) {
    um2 += other.um2;
    return *this;
  }
};

// Exact to half a square micrometre; sides up to 100 m stay in range.
constexpr Area area(Size size) {
  __extension__ using Wide = __int128;
  const Wide nm2 = static_cast<Wide>(size.width.nm) * size.height.nm;
  return {static_cast<std::int64_t>((nm2 + 500'000) / 1'000'000)};
}

// An angle in millionths of a degree, clockwise positive as seen on the page.
struct Angle {
  std::int64_t udeg = 0;
  friend constexpr auto operator<=>(Angle, Angle) = default; // NOLINT(modernize-use-nullptr)
};
constexpr Angle degrees(std::int64_t whole) { return {whole * 1'000'000}; }
constexpr double in_degrees(Angle a) { return static_cast<double>(a.udeg) / 1e6; }

// An outline in real lengths. Curve is a cubic Bezier with its two control points first.
struct Segment {
  enum class Kind { Move, Line, Curve, Close };
  Kind kind = Kind::Move;
  Point control1, control2; // Curve only
  Point end;                // unused for Close
  friend bool operator==(const Segment&, const Segment&) = default;
};

using Path = std::vector<Segment>;

} // namespace leafwright
