#include "../measure/show.h"

#include "model/notch.h"

#include <doctest/doctest.h>

#include <algorithm>

using namespace leafwright;

namespace {

Piece notched(Window::Notch edge) {
  Piece piece;
  piece.size = {millimetres(80), millimetres(50)};
  piece.windows.push_back(notch_window(edge, millimetres(10), piece.size));
  return piece;
}

} // namespace

TEST_CASE("a notch stands in the middle of its edge, its flat side on it") {
  using Notch = Window::Notch;
  const Window top = notched(Notch::Top).windows[0];
  CHECK(top.at == Point{millimetres(30), {}});
  CHECK(top.size == Size{millimetres(20), millimetres(10)});
  const Window right = notched(Notch::Right).windows[0];
  CHECK(right.at == Point{millimetres(70), millimetres(15)});
  CHECK(right.size == Size{millimetres(10), millimetres(20)});
  for (const Notch edge : {Notch::Top, Notch::Right, Notch::Bottom, Notch::Left}) {
    const Window window = notched(edge).windows[0];
    CHECK(bounds(outline_path(window.shape, window.size)).size == window.size);
  }
}

TEST_CASE("the edge of a notched piece runs round its notch and stays inside the piece") {
  for (const auto edge :
       {Window::Notch::Top, Window::Notch::Right, Window::Notch::Bottom, Window::Notch::Left}) {
    const Piece piece = notched(edge);
    const Path path = notched_rectangle(piece);
    CHECK(bounds(path) == Rect{{}, piece.size});
    // The deepest point of the half round, 10 mm in from the edge.
    const Window& window = piece.windows[0];
    const Point middle{window.at.x + window.size.width / 2, window.at.y + window.size.height / 2};
    const auto deepest = [&](const Segment& part) {
      return part.kind == Segment::Kind::Curve &&
             (part.end.x == middle.x || part.end.y == middle.y) &&
             Rect{window.at, window.size}.contains({part.end, {}});
    };
    CHECK(std::ranges::any_of(path, deepest));
  }
}

TEST_CASE("a piece without a notch has no edge of that kind") {
  Piece piece;
  piece.size = {millimetres(80), millimetres(50)};
  CHECK(notched_rectangle(piece).empty());
}
