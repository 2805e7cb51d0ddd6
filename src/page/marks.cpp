#include "page/marks.h"

#include "measure/index.h"

#include <algorithm>

namespace leafwright::page {

namespace {

void fill(Frame& into, Path path, Colour colour) {
  into.ops.emplace_back(DrawItem{Fill{std::move(path), colour, 1.0}});
}

void stroke(Frame& into, Path path, Colour colour, Length width) {
  Stroke line;
  line.path = std::move(path);
  line.colour = colour;
  line.width = width;
  into.ops.emplace_back(DrawItem{std::move(line)});
}

// White on dark inks, near-black on light ones.
Colour contrast(Colour colour) {
  const int light = (colour.red * 299 + colour.green * 587 + colour.blue * 114) / 1000;
  return light < 150 ? Colour{255, 255, 255} : Colour{38, 36, 33};
}

} // namespace

void draw_chip(Rect box, Colour colour, Ink::Mark mark, Colour edge, Frame& into) {
  fill(into, rectangle(box), mark == Ink::Mark::Open ? Colour{255, 255, 255} : colour);
  const Colour over = contrast(colour);
  const Length side = box.size.width;
  const Length thin = side / 9;
  const Length inset = side / 8;
  const auto at = [&](int x, int y) { // eighths of the side
    return Point{box.left() + side * x / 8, box.top() + box.size.height * y / 8};
  };
  using enum Ink::Mark;
  switch (mark) {
  case Solid: break;
  case Open:
    stroke(into,
           rectangle({{box.left() + inset, box.top() + inset},
                      {side - inset * 2, box.size.height - inset * 2}}),
           colour, thin);
    break;
  case CrossLines:
    for (const int k : {2, 4, 6}) stroke(into, straight(at(1, k), at(7, k)), over, thin / 2);
    [[fallthrough]];
  case Lines:
    for (const int k : {2, 4, 6}) stroke(into, straight(at(k, 1), at(k, 7)), over, thin / 2);
    break;
  case Dots:
    for (const int x : {2, 6})
      for (const int y : {2, 6}) fill(into, circle(at(x, y), thin), over);
    fill(into, circle(at(4, 4), thin), over);
    break;
  case Rings: stroke(into, circle(at(4, 4), side / 4), over, thin); break;
  case Waves:
    for (const int y : {3, 5})
      stroke(into,
             {{Segment::Kind::Move, {}, {}, at(1, y)},
              {Segment::Kind::Curve, at(2, y - 2), at(3, y + 2), at(4, y)},
              {Segment::Kind::Curve, at(5, y - 2), at(6, y + 2), at(7, y)}},
             over, thin);
    break;
  case Diagonal:
    stroke(into, straight(at(1, 7), at(7, 1)), over, thin);
    stroke(into, straight(at(1, 4), at(4, 1)), over, thin);
    stroke(into, straight(at(4, 7), at(7, 4)), over, thin);
    break;
  }
  stroke(into, rectangle(box), edge, points(0.4));
}

void draw_thing(const Atom& atom, Point at, const TextStyle& style, Frame& into, Context& context) {
  const text::Metrics metrics = context.fonts.metrics(atom.face);
  const Length cap = style.size * metrics.cap_height / 1000;
  switch (atom.kind) {
  case Atom::Kind::Word: break;
  case Atom::Kind::Letter: {
    const Length diameter = context.figure_look.badge_size;
    const Point centre{at.x + diameter / 2, at.y - cap / 2};
    fill(into, circle(centre, diameter / 2), context.input.accent);
    const int face = context.fonts.face(text::Role::TextBold);
    // Two letters ("AB") must still stand within the dot.
    const Length size = diameter * (atom.text.size() > 1 ? 52 : 66) / 100;
    text::Shaped letter = shape_word(atom.text, face, size, false, context);
    const Length letter_cap = size * context.fonts.metrics(face).cap_height / 1000;
    const Point baseline{centre.x - letter.width / 2, centre.y + letter_cap / 2};
    into.ops.emplace_back(
        DrawItem{TextRun{std::move(letter), baseline, Colour{255, 255, 255}, {}, {}}});
    break;
  }
  case Atom::Kind::Chip: {
    const Length side = style.size * 72 / 100;
    const LayoutInput::InkLook unknown;
    const auto index = as_index(std::max(atom.ink, 0));
    const LayoutInput::InkLook& ink =
        atom.ink >= 0 && index < context.input.inks.size() ? context.input.inks[index] : unknown;
    draw_chip({{at.x, at.y - cap / 2 - side / 2}, {side, side}}, ink.colour, ink.mark,
              context.colour("ink"), into);
    break;
  }
  case Atom::Kind::Tick: {
    const Length side = style.size * 74 / 100;
    Node node;
    node.type = "Span";
    node.actual = "☐";
    into.ops.emplace_back(OpenNode{std::move(node), false});
    stroke(into, rectangle({{at.x, at.y - cap / 2 - side / 2}, {side, side}}),
           context.colour("ink"), points(0.6));
    into.ops.emplace_back(CloseNode{});
    break;
  }
  }
}

} // namespace leafwright::page
