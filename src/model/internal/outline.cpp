#include "model/outline.h"

#include "measure/index.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>
#include <vector>

namespace leafwright {

namespace {

// Control distance of a quarter circle as one cubic: the outline strays 0.027 % of the radius at
// most.
constexpr double quarter = 0.552284749830793;
constexpr int most_corners = 720;
constexpr int most_bumps = 500; // on one side

struct Dot {
  double x = 0, y = 0;
};

Length whole(double nm) { return {static_cast<std::int64_t>(std::llround(nm))}; }
double real(Length a) { return static_cast<double>(a.nm); }

class Pen {
 public:
  void move(double x, double y) { add(Segment::Kind::Move, {x, y}); }
  void line(double x, double y) { add(Segment::Kind::Line, {x, y}); }
  void curve(Dot a, Dot b, Dot end) {
    path_.push_back({Segment::Kind::Curve, point(a), point(b), point(end)});
    here_ = end;
  }
  // A quarter of an ellipse from here to `end` with the corner of its box at `corner`.
  void round(Dot corner, Dot end) {
    const Dot from = here_;
    curve({from.x + (corner.x - from.x) * quarter, from.y + (corner.y - from.y) * quarter},
          {end.x + (corner.x - end.x) * quarter, end.y + (corner.y - end.y) * quarter}, end);
  }
  void close() { path_.push_back({Segment::Kind::Close, {}, {}, {}}); }
  Path take() { return std::move(path_); }

 private:
  static Point point(Dot d) { return {whole(d.x), whole(d.y)}; }
  void add(Segment::Kind kind, Dot end) {
    path_.push_back({kind, {}, {}, point(end)});
    here_ = end;
  }
  Path path_;
  Dot here_;
};

void draw_rounded(Pen& pen, double w, double h, double rx, double ry) {
  pen.move(rx, 0);
  if (w > 2 * rx) pen.line(w - rx, 0);
  pen.round({w, 0}, {w, ry});
  if (h > 2 * ry) pen.line(w, h - ry);
  pen.round({w, h}, {w - rx, h});
  if (w > 2 * rx) pen.line(rx, h);
  pen.round({0, h}, {0, h - ry});
  if (h > 2 * ry) pen.line(0, ry);
  pen.round({0, 0}, {rx, 0});
  pen.close();
}

void draw_oval(Pen& pen, double left, double top, double w, double h) {
  const double cx = left + w / 2, cy = top + h / 2, right = left + w, bottom = top + h;
  pen.move(cx, top);
  pen.round({right, top}, {right, cy});
  pen.round({right, bottom}, {cx, bottom});
  pen.round({left, bottom}, {left, cy});
  pen.round({left, top}, {cx, top});
  pen.close();
}

// Corners on one circle (or on two in turn), first at the top, clockwise; stretched to the box.
void draw_corners(Pen& pen, double w, double h, int corners, double inner) {
  const bool star = inner < 1;
  const int count = std::clamp(corners, 3, most_corners) * (star ? 2 : 1);
  std::vector<Dot> dots;
  dots.reserve(as_index(count));
  Dot low{1e9, 1e9}, high{-1e9, -1e9};
  for (int i = 0; i < count; ++i) {
    const double turn = 2 * std::numbers::pi * i / count;
    const double radius = star && i % 2 == 1 ? inner : 1;
    const Dot d{radius * std::sin(turn), -radius * std::cos(turn)};
    low = {std::min(low.x, d.x), std::min(low.y, d.y)};
    high = {std::max(high.x, d.x), std::max(high.y, d.y)};
    dots.push_back(d);
  }
  bool first = true;
  for (const Dot& d : dots) {
    const double x = (d.x - low.x) / (high.x - low.x) * w;
    const double y = (d.y - low.y) / (high.y - low.y) * h;
    if (first)
      pen.move(x, y);
    else
      pen.line(x, y);
    first = false;
  }
  pen.close();
}

// Bumps stand on a rectangle one bump's height inside the box, a whole number on each side.
void draw_scallops(Pen& pen, double w, double h, double wished) {
  const double shorter = std::min(w, h);
  const double r = std::clamp(wished > 0 ? wished : shorter / 16, 1.0, std::max(1.0, shorter / 4));
  const double across = w - 2 * r, down = h - 2 * r;
  const auto bumps = [&](double side) {
    return static_cast<int>(std::clamp(std::round(side / (2 * r)), 1.0, double{most_bumps}));
  };
  const int nx = bumps(across), ny = bumps(down);
  pen.move(r, r);
  // One bump from `at` along (dx, dy), standing out by r to the left of the direction of travel.
  const auto side = [&](Dot at, double dx, double dy, int count) {
    const double length = std::hypot(dx, dy);
    const Dot out{dy / length * r, -dx / length * r};
    for (int i = 0; i < count; ++i) {
      const auto along = [&](double t) {
        return Dot{at.x + dx * (i + t) / count, at.y + dy * (i + t) / count};
      };
      const Dot a = along(0), m = along(0.5), b = along(1);
      pen.round({a.x + out.x, a.y + out.y}, {m.x + out.x, m.y + out.y});
      pen.round({b.x + out.x, b.y + out.y}, b);
    }
  };
  side({r, r}, across, 0, nx);
  side({w - r, r}, 0, down, ny);
  side({w - r, h - r}, -across, 0, nx);
  side({r, h - r}, 0, -down, ny);
  pen.close();
}

// Bumps stand on a circle inside the box, one in the middle of each side of it.
void draw_round_scallops(Pen& pen, double w, double h, double wished) {
  const double shorter = std::min(w, h);
  const double r = std::clamp(wished > 0 ? wished : shorter / 16, 1.0, std::max(1.0, shorter / 6));
  const double base = 1.0 - r / (shorter / 2); // of the circle they stand on; the box is 2 wide
  const int count =
      4 *
      static_cast<int>(std::clamp(std::round(std::numbers::pi * (shorter / 2 - r) / (2 * r) / 2),
                                  2.0, most_bumps / 4.0));
  const auto at = [&](double radius, double turn) {
    return Dot{w / 2 * (1 + radius * std::sin(turn)), h / 2 * (1 - radius * std::cos(turn))};
  };
  const double half = std::numbers::pi / count;
  // A corner of the hull of half a bump: above its end, level with its top.
  const double shoulder = std::hypot(1.0, base * std::sin(half));
  const double lean = std::atan2(base * std::sin(half), 1.0);
  const Dot begin = at(base, -half);
  pen.move(begin.x, begin.y);
  for (int i = 0; i < count; ++i) {
    const double middle = 2 * half * i;
    pen.round(at(shoulder, middle - lean), at(1.0, middle));
    pen.round(at(shoulder, middle + lean), at(base, middle + half));
  }
  pen.close();
}

void draw_banner(Pen& pen, double w, double h, double depth) {
  pen.move(0, 0);
  pen.line(w, 0);
  pen.line(w, h);
  pen.line(w / 2, h - std::clamp(depth, 0.0, h));
  pen.line(0, h);
  pen.close();
}

void draw_tag(Pen& pen, double w, double h, double depth, double radius) {
  const double cut = std::clamp(depth, 0.0, std::min(w / 2, h));
  pen.move(cut, 0);
  pen.line(w - cut, 0);
  pen.line(w, cut);
  pen.line(w, h);
  pen.line(0, h);
  pen.line(0, cut);
  pen.close();
  if (radius <= 0 || radius * 4 > std::min(w, h)) return;
  const double centre = std::min(std::max(cut, 2 * radius), h / 2);
  draw_oval(pen, w / 2 - radius, centre - radius, 2 * radius, 2 * radius);
}

Path fitted(const Path& path, Size from, Size box) {
  Point origin{};
  if (from.width.nm <= 0 || from.height.nm <= 0) {
    const Rect inked = bounds(path);
    origin = inked.origin;
    from = inked.size;
  }
  const auto scale = [](Length to, Length of) { return of.nm > 0 ? real(to) / real(of) : 1.0; };
  return scaled(moved(path, Point{} - origin), scale(box.width, from.width),
                scale(box.height, from.height));
}

template <class Change>
Path changed(Path path, Change change) {
  for (Segment& segment : path) {
    if (segment.kind == Segment::Kind::Close) continue;
    if (segment.kind == Segment::Kind::Curve) {
      segment.control1 = change(segment.control1);
      segment.control2 = change(segment.control2);
    }
    segment.end = change(segment.end);
  }
  return path;
}

// Where one coordinate of a cubic turns round: the roots in (0, 1) of its derivative.
template <class See>
void see_extremes(double a, double b, double c, double d, See see) {
  const double i = d - 3 * c + 3 * b - a, j = 2 * (c - 2 * b + a), k = b - a; // i t^2 + j t + k
  const auto visit = [&](double t) {
    if (!(t > 0 && t < 1)) return;
    const double s = 1 - t;
    see(s * s * s * a + 3 * s * s * t * b + 3 * s * t * t * c + t * t * t * d);
  };
  const double root = j * j - 4 * i * k;
  if (root < 0) return;
  // The form that does not cancel when i is small.
  const double q = -(j + std::copysign(std::sqrt(root), j)) / 2;
  if (i != 0) visit(q / i);
  if (q != 0) visit(k / q);
}

// Sine and cosine, exact at quarter turns.
std::pair<double, double> sine_cosine(Angle angle) {
  constexpr std::int64_t full = 360'000'000, quarter_turn = 90'000'000;
  const std::int64_t turn = ((angle.udeg % full) + full) % full;
  if (turn % quarter_turn == 0) {
    switch (turn / quarter_turn) {
    case 0: return {0, 1};
    case 1: return {1, 0};
    case 2: return {0, -1};
    default: return {-1, 0};
    }
  }
  const double radians = static_cast<double>(turn) / 180e6 * std::numbers::pi;
  return {std::sin(radians), std::cos(radians)};
}

} // namespace

Path outline_path(const Shape& shape, Size box) {
  const double w = real(box.width), h = real(box.height);
  if (w <= 0 || h <= 0) return {};
  const double shorter = std::min(w, h);
  const double radius = real(shape.radius), depth = real(shape.depth);
  Pen pen;
  switch (shape.outline) {
  case Shape::Outline::Rectangle: break;
  case Shape::Outline::Rounded: {
    const double r = std::clamp(radius, 0.0, shorter / 2);
    if (r <= 0) break;
    draw_rounded(pen, w, h, r, r);
    return pen.take();
  }
  case Shape::Outline::Circle:
    draw_oval(pen, (w - shorter) / 2, (h - shorter) / 2, shorter, shorter);
    return pen.take();
  case Shape::Outline::Oval: draw_oval(pen, 0, 0, w, h); return pen.take();
  case Shape::Outline::Polygon: draw_corners(pen, w, h, shape.count, 1); return pen.take();
  case Shape::Outline::Star:
    draw_corners(pen, w, h, shape.count, std::clamp(1 - depth / (shorter / 2), 0.05, 0.999));
    return pen.take();
  case Shape::Outline::Scalloped: draw_scallops(pen, w, h, radius); return pen.take();
  case Shape::Outline::ScallopedCircle: draw_round_scallops(pen, w, h, radius); return pen.take();
  case Shape::Outline::Banner: draw_banner(pen, w, h, depth); return pen.take();
  case Shape::Outline::Tag: draw_tag(pen, w, h, depth, radius); return pen.take();
  case Shape::Outline::Free: return fitted(shape.path, shape.path_size, box);
  }
  pen.move(0, 0);
  pen.line(w, 0);
  pen.line(w, h);
  pen.line(0, h);
  pen.close();
  return pen.take();
}

Rect bounds(const Path& path) {
  bool any = false;
  double left = 0, top = 0, right = 0, bottom = 0;
  const auto see_x = [&](double x) {
    left = std::min(left, x);
    right = std::max(right, x);
  };
  const auto see_y = [&](double y) {
    top = std::min(top, y);
    bottom = std::max(bottom, y);
  };
  Point here, start;
  for (const Segment& segment : path) {
    if (segment.kind == Segment::Kind::Close) {
      here = start;
      continue;
    }
    const double x = real(segment.end.x), y = real(segment.end.y);
    if (!any) {
      left = right = x;
      top = bottom = y;
      any = true;
    }
    if (segment.kind == Segment::Kind::Move) start = segment.end;
    see_x(x);
    see_y(y);
    if (segment.kind == Segment::Kind::Curve) {
      see_extremes(real(here.x), real(segment.control1.x), real(segment.control2.x), x, see_x);
      see_extremes(real(here.y), real(segment.control1.y), real(segment.control2.y), y, see_y);
    }
    here = segment.end;
  }
  const Point origin{whole(left), whole(top)};
  return {origin, {whole(right) - origin.x, whole(bottom) - origin.y}};
}

Path moved(Path path, Point by) {
  return changed(std::move(path), [by](Point p) { return p + by; });
}

Path turned(const Path& path, Angle angle, Point about) {
  const auto [s, c] = sine_cosine(angle);
  return changed(path, [s = s, c = c, about](Point p) {
    const double dx = real(p.x - about.x), dy = real(p.y - about.y);
    return Point{about.x + whole(dx * c - dy * s), about.y + whole(dx * s + dy * c)};
  });
}

Path scaled(const Path& path, double sx, double sy) {
  return changed(path, [sx, sy](Point p) {
    return Point{whole(real(p.x) * sx), whole(real(p.y) * sy)};
  });
}

} // namespace leafwright
