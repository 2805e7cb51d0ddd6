#include "model/notch.h"

#include <algorithm>
#include <array>

namespace leafwright {

namespace {

using Notch = Window::Notch;

// From the corner where an edge begins, clockwise round the piece: to the notch in its middle,
// round it, and on to the next corner. `out` points from the edge into the piece.
void add_edge(Path& path, Point from, Point to, Point out, Length radius) {
  const auto line = [&](Point end) { path.push_back({Segment::Kind::Line, {}, {}, end}); };
  if (radius > Length{}) {
    const Point middle{(from.x + to.x) / 2, (from.y + to.y) / 2};
    const Point along{out.y, -out.x}; // the way of the walk
    const auto at = [&](double forth, double in) {
      const auto nm = static_cast<double>(radius.nm);
      const auto part = [nm](Length unit_a, double a, Length unit_b, double b) {
        const double sum = static_cast<double>(unit_a.nm) * a + static_cast<double>(unit_b.nm) * b;
        return Length{static_cast<std::int64_t>(sum * nm)};
      };
      return middle + Point{part(along.x, forth, out.x, in), part(along.y, forth, out.y, in)};
    };
    constexpr double k = 0.5522847498307936; // a quarter circle as a cubic curve
    line(at(-1, 0));
    path.push_back({Segment::Kind::Curve, at(-1, k), at(-k, 1), at(0, 1)});
    path.push_back({Segment::Kind::Curve, at(k, 1), at(1, k), at(1, 0)});
  }
  line(to);
}

} // namespace

Window notch_window(Notch edge, Length radius, Size piece) {
  Window window;
  window.notch = edge;
  const bool level = edge == Notch::Top || edge == Notch::Bottom;
  window.size = level ? Size{radius * 2, radius} : Size{radius, radius * 2};
  window.at = level ? Point{(piece.width - radius * 2) / 2,
                            edge == Notch::Top ? Length{} : piece.height - radius}
                    : Point{edge == Notch::Left ? Length{} : piece.width - radius,
                            (piece.height - radius * 2) / 2};
  window.shape.outline = Shape::Outline::Free;
  window.shape.path_size = window.size;
  const Length r = radius, none{};
  const auto [w, h] = window.size;
  constexpr double k = 0.5522847498307936;
  const Length c{static_cast<std::int64_t>(static_cast<double>(r.nm) * k)};
  const auto move = [&](Point p) { window.shape.path.push_back({Segment::Kind::Move, {}, {}, p}); };
  const auto curve = [&](Point a, Point b, Point end) {
    window.shape.path.push_back({Segment::Kind::Curve, a, b, end});
  };
  switch (edge) {
  case Notch::None:
  case Notch::Top:
    move({none, none});
    curve({none, c}, {r - c, r}, {r, r});
    curve({r + c, r}, {w, c}, {w, none});
    break;
  case Notch::Bottom:
    move({none, h});
    curve({none, h - c}, {r - c, none}, {r, none});
    curve({r + c, none}, {w, h - c}, {w, h});
    break;
  case Notch::Left:
    move({none, none});
    curve({c, none}, {r, r - c}, {r, r});
    curve({r, r + c}, {c, h}, {none, h});
    break;
  case Notch::Right:
    move({w, none});
    curve({w - c, none}, {none, r - c}, {none, r});
    curve({none, r + c}, {w - c, h}, {w, h});
    break;
  }
  window.shape.path.push_back({Segment::Kind::Close, {}, {}, {}});
  return window;
}

Path notched_rectangle(const Piece& piece) {
  std::array<Length, 5> radius{};
  bool any = false;
  for (const Window& window : piece.windows) {
    if (window.notch == Notch::None) continue;
    any = true;
    radius.at(static_cast<std::size_t>(window.notch)) =
        std::min(window.size.width, window.size.height);
  }
  Path path;
  if (!any || piece.shape.outline != Shape::Outline::Rectangle) return path;
  const auto of = [&](Notch edge) { return radius.at(static_cast<std::size_t>(edge)); };
  const Length none{}, one{1};
  const auto [w, h] = piece.size;
  path.push_back({Segment::Kind::Move, {}, {}, {none, none}});
  add_edge(path, {none, none}, {w, none}, {none, one}, of(Notch::Top));
  add_edge(path, {w, none}, {w, h}, {-one, none}, of(Notch::Right));
  add_edge(path, {w, h}, {none, h}, {none, -one}, of(Notch::Bottom));
  add_edge(path, {none, h}, {none, none}, {one, none}, of(Notch::Left));
  path.push_back({Segment::Kind::Close, {}, {}, {}});
  return path;
}

} // namespace leafwright
