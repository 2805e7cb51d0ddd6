#include "page/frame.h"

#include "model/shape.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <type_traits>

namespace leafwright::page {

Length on_grid(Length a, Length grid) {
  if (grid.nm <= 0 || a.nm <= 0) return a;
  // Sums of rounded points may be a few nanometres over a step.
  constexpr std::int64_t rounding = 1000;
  return {(a.nm - rounding + grid.nm - 1) / grid.nm * grid.nm};
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
    frame->ops.emplace_back(Stand{{Length{}, y}, flow[i].frame});
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
    frame->ops.emplace_back(Stand{{}, item.frame});
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

} // namespace leafwright::page
