#pragma once

#include <algorithm>
#include <compare>
#include <cstdint>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

// Exact lengths, and what is made of them: points, sizes, rectangles, areas, angles and paths, and
// the sizes that have a name. One nanometre is the unit because 1/64 in = 396 875 nm and every
// decimal of a millimetre down to six places are both whole numbers of it (1 in = 25.4 mm exactly,
// the international inch of 1959). x grows to the right and y grows DOWN, as a card is read.
//
//   const Size mat = {inches(4), inches(5, 1, 4)};  // 4 x 5 1/4 in
//   const Rect on_front = {{inches(0, 1, 8), inches(0, 1, 8)}, mat};

namespace leafwright {

// A signed length in whole nanometres. Range about +-9.2e9 m: sums of real card sizes cannot
// overflow; the parser refuses lengths above 100 m.
struct Length {
  std::int64_t nm = 0;

  friend constexpr auto operator<=>(Length, Length) = default; // NOLINT(modernize-use-nullptr)
  constexpr Length operator-() const { return {-nm}; }
  constexpr Length& operator+=(Length other) {
    nm += other.nm;
    return *this;
  }
  constexpr Length& operator-=(Length other) {
    nm -= other.nm;
    return *this;
  }
  friend constexpr Length operator+(Length a, Length b) { return {a.nm + b.nm}; }
  friend constexpr Length operator-(Length a, Length b) { return {a.nm - b.nm}; }
  friend constexpr Length operator*(Length a, std::int64_t times) { return {a.nm * times}; }
  friend constexpr Length operator*(std::int64_t times, Length a) { return {a.nm * times}; }
  // Division truncates towards zero to a whole nanometre.
  friend constexpr Length operator/(Length a, std::int64_t parts) { return {a.nm / parts}; }
};

inline constexpr std::int64_t nm_per_mm = 1'000'000;
inline constexpr std::int64_t nm_per_inch = 25'400'000;

// `whole numerator/denominator` inches, exact when the denominator divides 25 400 000 x numerator.
constexpr Length inches(std::int64_t whole, std::int64_t numerator = 0,
                        std::int64_t denominator = 1) {
  return {whole * nm_per_inch + numerator * nm_per_inch / denominator};
}
constexpr Length millimetres(std::int64_t whole) { return {whole * nm_per_mm}; }
constexpr Length micrometres(std::int64_t whole) { return {whole * 1000}; }
constexpr Length absolute(Length a) { return a.nm < 0 ? -a : a; }

// The unit that a bare number stands for; a project chooses one.
enum class Unit { Inch, Millimetre };

// Only for drawing and for printed decimals; never feed the result back into a plan.
constexpr double in_mm(Length a) { return static_cast<double>(a.nm) / 1e6; }
constexpr double in_inches(Length a) { return static_cast<double>(a.nm) / 25.4e6; }
// PDF user space: 72 points to the inch (ISO 32000-1, 8.3.2.3).
constexpr double in_points(Length a) { return static_cast<double>(a.nm) * 72.0 / 25.4e6; }
// The nearest nanometre to a number of points.
constexpr Length points(double pt) {
  const double nm = pt * 25.4e6 / 72.0;
  return {static_cast<std::int64_t>(nm < 0 ? nm - 0.5 : nm + 0.5)};
}

// Only for drawing: a share of a length, its fraction of a nanometre dropped.
constexpr Length times(Length a, double factor) {
  return {static_cast<std::int64_t>(static_cast<double>(a.nm) * factor)};
}

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

// What tells two of them apart (see basics/reuse.h).
template <class To>
void feed(To& to, Length a) {
  to.put(a.nm);
}
template <class To>
void feed(To& to, Angle a) {
  to.put(a.udeg);
}
template <class To>
void feed(To& to, Point p) {
  to.put(p.x, p.y);
}
template <class To>
void feed(To& to, Size s) {
  to.put(s.width, s.height);
}
template <class To>
void feed(To& to, Rect r) {
  to.put(r.origin, r.size);
}

// A named trimmed sheet, card or envelope size with the place where the figure is published.
struct NamedSize {
  std::string_view name; // as a project writes it: "letter", "a4", "A2", "C6"
  Size size;             // portrait
  std::string_view source;
};

// Sheets: ISO 216 A and B, US letter/legal/tabloid (ASME Y14.1), 12 x 12, 6 x 6, 8 x 8, 6 x 12 in.
std::span<const NamedSize> sheet_sizes();
// Folded cards: announcement sizes A2, A6, A7, A8, A9, A10 (common practice), C6/C5/DL cards that
// suit ISO 269 envelopes, square sizes, 5 x 7.
std::span<const NamedSize> card_sizes();
// Envelopes: US announcement (common practice), ISO 269 C and DL.
std::span<const NamedSize> envelope_sizes();
// Case is ignored; "A2" means the card of announcement size among cards and envelopes and the ISO
// sheet among sheets.
std::optional<Size> find_size(std::span<const NamedSize> table, std::string_view name);

} // namespace leafwright
