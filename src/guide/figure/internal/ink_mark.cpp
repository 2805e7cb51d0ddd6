#include "guide/figure/paint.h"

namespace leafwright::figure {

namespace {

Path ink_disc(Point centre, Length radius) {
  return oval({{centre.x - radius, centre.y - radius}, {radius * 2, radius * 2}});
}

void draw_mark(Items& into, Ink::Mark mark, Rect box, Colour over) {
  const Length thin = box.size.width / 9;
  const auto at = [&](int x, int y) { // eighths of the side
    return Point{box.left() + box.size.width * x / 8, box.top() + box.size.height * y / 8};
  };
  const auto line = [&](Point from, Point to, Length width) {
    real_stroke(into, segment(from, to), over, width);
  };
  using enum Ink::Mark;
  switch (mark) {
  case Solid:
  case Open: break;
  case CrossLines:
    for (const int k : {2, 4, 6}) line(at(1, k), at(7, k), thin / 2);
    [[fallthrough]];
  case Lines:
    for (const int k : {2, 4, 6}) line(at(k, 1), at(k, 7), thin / 2);
    break;
  case Dots:
    for (const int x : {2, 6})
      for (const int y : {2, 6}) fill(into, ink_disc(at(x, y), thin), over);
    fill(into, ink_disc(at(4, 4), thin), over);
    break;
  case Rings: real_stroke(into, ink_disc(at(4, 4), box.size.width / 4), over, thin); break;
  case Waves:
    for (const int y : {3, 5})
      real_stroke(into,
                  {{Segment::Kind::Move, {}, {}, at(1, y)},
                   {Segment::Kind::Curve, at(2, y - 2), at(3, y + 2), at(4, y)},
                   {Segment::Kind::Curve, at(5, y - 2), at(6, y + 2), at(7, y)}},
                  over, thin);
    break;
  case Diagonal:
    line(at(1, 7), at(7, 1), thin);
    line(at(1, 4), at(4, 1), thin);
    line(at(4, 7), at(7, 4), thin);
    break;
  }
}

} // namespace

void draw_ink(Items& into, const Ink& ink, Rect box) {
  const bool open = ink.mark == Ink::Mark::Open;
  fill(into, rectangle(box), open ? Colour{255, 255, 255} : ink.colour);
  if (open)
    real_stroke(into, rectangle(grown(box, -box.size.width / 8)), ink.colour, box.size.width / 9);
  const Colour over = luminance(ink.colour) < 0.3 ? Colour{255, 255, 255} : line_ink;
  draw_mark(into, ink.mark, box, over);
  drawn_stroke(into, rectangle(box), line_ink, points(0.4));
}

} // namespace leafwright::figure
