#include "guide/figure/paint.h"

namespace leafwright::figure {

std::vector<MarkPart> ink_mark(Ink::Mark mark, Rect box) {
  std::vector<MarkPart> parts;
  const Length side = box.size.width;
  const Length thin = side / 9;
  const auto at = [&](int x, int y) { // eighths of the side
    return Point{box.left() + side * x / 8, box.top() + box.size.height * y / 8};
  };
  const auto line = [&](Point from, Point to, Length width) {
    parts.push_back({segment(from, to), {}, {}, width});
  };
  const auto disc = [&](int x, int y) { parts.push_back({{}, at(x, y), thin, {}}); };
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
      for (const int y : {2, 6}) disc(x, y);
    disc(4, 4);
    break;
  case Rings: parts.push_back({{}, at(4, 4), side / 4, thin}); break;
  case Waves:
    for (const int y : {3, 5})
      parts.push_back({{{Segment::Kind::Move, {}, {}, at(1, y)},
                        {Segment::Kind::Curve, at(2, y - 2), at(3, y + 2), at(4, y)},
                        {Segment::Kind::Curve, at(5, y - 2), at(6, y + 2), at(7, y)}},
                       {},
                       {},
                       thin});
    break;
  case Diagonal:
    line(at(1, 7), at(7, 1), thin);
    line(at(1, 4), at(4, 1), thin);
    line(at(4, 7), at(7, 4), thin);
    break;
  }
  return parts;
}

void draw_ink(Items& into, const Ink& ink, Rect box) {
  const bool open = ink.mark == Ink::Mark::Open;
  fill(into, rectangle(box), open ? Colour{255, 255, 255} : ink.colour);
  if (open)
    real_stroke(into, rectangle(grown(box, -box.size.width / 8)), ink.colour, box.size.width / 9);
  const Colour over = luminance(ink.colour) < 0.3 ? Colour{255, 255, 255} : line_ink;
  for (const MarkPart& part : ink_mark(ink.mark, box)) {
    const Length r = part.radius;
    const Path path = r.nm > 0 ? oval({part.centre - Point{r, r}, {r * 2, r * 2}}) : part.path;
    if (part.width.nm > 0)
      real_stroke(into, path, over, part.width);
    else
      fill(into, path, over);
  }
  drawn_stroke(into, rectangle(box), line_ink, points(0.4));
}

} // namespace leafwright::figure
