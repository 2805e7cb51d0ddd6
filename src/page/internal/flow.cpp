#include "page/flow.h"

#include "guide/figure/paint.h"
#include "measure/index.h"
#include "model/outline.h"
#include "page/internal/paragraph.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <type_traits>
#include <variant>

namespace leafwright::page {

Length on_grid(Length a, Length grid) {
  if (grid.nm <= 0 || a.nm <= 0) return a;
  // Sums of rounded points may be a few nanometres over a step.
  constexpr std::int64_t rounding = 1000;
  return {(a.nm - rounding + grid.nm - 1) / grid.nm * grid.nm};
}

FramePtr frame_of(std::vector<Op> ops, Size size) {
  auto frame = std::make_shared<Frame>();
  frame->size = size;
  frame->ops = std::move(ops);
  return frame;
}

Node node_of(std::string type) {
  Node node;
  node.type = std::move(type);
  return node;
}

Length height(const Flow& flow) {
  Length total{};
  for (std::size_t i = 0; i < flow.size(); ++i)
    total += flow[i].frame->size.height + (i > 0 ? flow[i].space_before : Length{});
  return total;
}

FramePtr stacked(const Flow& flow, Length width) {
  auto frame = std::make_shared<Frame>();
  Length y{};
  for (std::size_t i = 0; i < flow.size(); ++i) {
    if (i > 0) y += flow[i].space_before;
    frame->ops.emplace_back(Inset{{Length{}, y}, flow[i].frame});
    y += flow[i].frame->size.height;
  }
  frame->size = {width, y};
  return frame;
}

void enclose(Flow& flow, std::vector<Op> before, std::vector<Op> after) {
  if (flow.empty()) return;
  const auto around = [](FlowItem& item, std::vector<Op> first, std::vector<Op> last) {
    auto frame = std::make_shared<Frame>();
    frame->size = item.frame->size;
    frame->ops = std::move(first);
    frame->ops.emplace_back(Inset{{}, item.frame});
    std::move(last.begin(), last.end(), std::back_inserter(frame->ops));
    item.frame = std::move(frame);
  };
  if (flow.size() == 1) {
    around(flow.front(), std::move(before), std::move(after));
    return;
  }
  around(flow.front(), std::move(before), {});
  around(flow.back(), {}, std::move(after));
}

namespace {

Point turned_point(Point p, Angle angle, Point about) {
  const double a = in_degrees(angle) * std::numbers::pi / 180.0;
  const double c = std::cos(a);
  const double s = std::sin(a);
  const double x = static_cast<double>((p.x - about.x).nm);
  const double y = static_cast<double>((p.y - about.y).nm);
  // y grows down, so the plain rotation matrix turns clockwise as seen.
  return {about.x + Length{std::llround(x * c - y * s)},
          about.y + Length{std::llround(x * s + y * c)}};
}

Rect turned_box(Rect box, Angle angle, Point about) {
  const Point corners[4] = {turned_point(box.origin, angle, about),
                            turned_point({box.right(), box.top()}, angle, about),
                            turned_point({box.left(), box.bottom()}, angle, about),
                            turned_point({box.right(), box.bottom()}, angle, about)};
  Point low = corners[0];
  Point high = corners[0];
  for (const Point corner : corners) {
    low = {std::min(low.x, corner.x), std::min(low.y, corner.y)};
    high = {std::max(high.x, corner.x), std::max(high.y, corner.y)};
  }
  return {low, {high.x - low.x, high.y - low.y}};
}

} // namespace

Drawing turned_drawing(const Drawing& drawing, Angle angle) {
  const Point about{drawing.size.width / 2, drawing.size.height / 2};
  const Rect outer = turned_box({{}, drawing.size}, angle, about);
  const Point shift{-outer.left(), -outer.top()};
  Drawing result;
  result.size = outer.size;
  result.items.reserve(drawing.items.size());
  for (const DrawItem& item : drawing.items) {
    DrawItem copy = std::visit(
        [&](const auto& command) -> DrawItem {
          auto turned_command = command;
          using Command = std::decay_t<decltype(command)>;
          if constexpr (std::is_same_v<Command, Fill> || std::is_same_v<Command, Stroke> ||
                        std::is_same_v<Command, PushClip>) {
            for (Segment& segment : turned_command.path) {
              segment.control1 = turned_point(segment.control1, angle, about);
              segment.control2 = turned_point(segment.control2, angle, about);
              segment.end = turned_point(segment.end, angle, about);
            }
          } else if constexpr (std::is_same_v<Command, TextRun>) {
            turned_command.baseline = turned_point(command.baseline, angle, about);
            turned_command.turned.udeg += angle.udeg;
          } else if constexpr (std::is_same_v<Command, Image>) {
            const Point centre = turned_point(command.box.centre(), angle, about);
            turned_command.box.origin = {centre.x - command.box.size.width / 2,
                                         centre.y - command.box.size.height / 2};
            turned_command.turned.udeg += angle.udeg;
          } else if constexpr (std::is_same_v<Command, Link> || std::is_same_v<Command, Mark>) {
            turned_command.box = turned_box(command.box, angle, about);
          }
          return turned_command;
        },
        item);
    result.items.push_back(moved_item(copy, shift));
  }
  return result;
}

Path rectangle(Rect box) {
  using enum Segment::Kind;
  return {{Move, {}, {}, box.origin},
          {Line, {}, {}, {box.right(), box.top()}},
          {Line, {}, {}, {box.right(), box.bottom()}},
          {Line, {}, {}, {box.left(), box.bottom()}},
          {Close, {}, {}, {}}};
}

Path circle(Point centre, Length radius) {
  Shape shape;
  shape.outline = Shape::Outline::Circle;
  return moved(outline_path(shape, {radius * 2, radius * 2}),
               {centre.x - radius, centre.y - radius});
}

Path straight(Point from, Point to) {
  return {{Segment::Kind::Move, {}, {}, from}, {Segment::Kind::Line, {}, {}, to}};
}

namespace {

template <class T>
concept Coloured = requires(T item) {
  item.colour;
};

} // namespace

Colour grey_of(Colour colour) {
  const auto luma = static_cast<std::uint8_t>(
      std::lround(0.299 * colour.red + 0.587 * colour.green + 0.114 * colour.blue));
  return {luma, luma, luma};
}

void make_grey(std::vector<DrawItem>& items) {
  for (DrawItem& item : items)
    std::visit(
        [](auto& what) {
          if constexpr (Coloured<std::decay_t<decltype(what)>>) what.colour = grey_of(what.colour);
        },
        item);
}

void make_grey(Laid& laid) {
  for (LaidPage& page : laid.pages) make_grey(page.items);
}

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
  const Length side = box.size.width;
  const Length inset = side / 8;
  if (mark == Ink::Mark::Open)
    stroke(into,
           rectangle({{box.left() + inset, box.top() + inset},
                      {side - inset * 2, box.size.height - inset * 2}}),
           colour, side / 9);
  const Colour over = contrast(colour);
  for (figure::MarkPart part : figure::ink_mark(mark, box)) {
    if (part.radius.nm > 0) part.path = circle(part.centre, part.radius);
    if (part.width.nm > 0)
      stroke(into, std::move(part.path), over, part.width);
    else
      fill(into, std::move(part.path), over);
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
