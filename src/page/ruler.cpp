#include "page/blocks.h"
#include "page/paragraph.h"

#include <algorithm>

namespace leafwright::page {

namespace {

void stroke(Frame& into, Point from, Point to, Length width, Colour colour) {
  Stroke line;
  line.path = straight(from, to);
  line.width = width;
  line.colour = colour;
  into.ops.emplace_back(DrawItem{std::move(line)});
}

} // namespace

FramePtr ruler_frame(bool inch_first, Context& context) {
  const Length mid = points(12);
  const Colour ink = context.colour("ink");
  auto frame = std::make_shared<Frame>();
  const TextStyle& style = context.look.style("small");
  const auto ticks = [&](Length total, int parts, int major, bool up) {
    for (int k = 0; k <= parts; ++k) {
      const Length x = total * k / parts;
      const Length tall = k % major == 0 ? points(7) : points(4);
      stroke(*frame, {x, mid}, {x, up ? mid - tall : mid + tall}, points(0.5), ink);
    }
  };
  const Length inch_bar = inches(2);
  const Length mm_bar = millimetres(50);
  ticks(inch_bar, 16, 8, inch_first);
  ticks(mm_bar, 10, 2, !inch_first);
  stroke(*frame, {{}, mid}, {std::max(inch_bar, mm_bar), mid}, points(0.8), ink);
  frame->ops.emplace_back(
      DrawItem{Mark{"scale-bar", "inch", {{{}, mid}, {inch_bar, {}}}, {inch_bar, {}}}});
  frame->ops.emplace_back(
      DrawItem{Mark{"scale-bar", "mm", {{{}, mid}, {mm_bar, {}}}, {mm_bar, {}}}});
  const Length label_x = std::max(inch_bar, mm_bar) + points(5);
  const auto label = [&](const char* words, bool up) {
    const FramePtr set = paragraph_frame(plain(words), style, points(60), context, "");
    const Length baseline = baseline_in(style.leading, context.look);
    frame->ops.emplace_back(
        Stand{{label_x, (up ? mid - points(1.5) : mid + points(8)) - baseline}, set});
  };
  label("2 in", inch_first);
  label("50 mm", !inch_first);
  frame->size = {label_x + points(40), points(24)};
  return frame;
}

FramePtr check_square_frame(bool inch, Length side, Context& context) {
  auto frame = std::make_shared<Frame>();
  frame->size = {side, side};
  Stroke line;
  line.path = rectangle({{}, frame->size});
  line.width = points(0.5);
  line.colour = context.colour("ink");
  frame->ops.emplace_back(DrawItem{std::move(line)});
  frame->ops.emplace_back(
      DrawItem{Mark{"check-square", inch ? "inch" : "mm", {{}, frame->size}, frame->size}});
  TextStyle style = context.look.style("small");
  style.align = TextStyle::Align::Centre;
  const FramePtr words =
      paragraph_frame(plain(inch ? "1/2 in" : "12 mm"), style, side, context, "");
  frame->ops.emplace_back(Stand{{{}, (side - words->size.height) / 2}, words});
  return frame;
}

Flow note_lines_flow(const guide::NoteLines& lines, Length width, Context& context) {
  const FramePtr title =
      paragraph_frame(plain(lines.title), context.look.style("small"), width, context);
  auto frame = std::make_shared<Frame>();
  frame->ops.emplace_back(Stand{{}, title});
  // Far enough apart for a hand that writes in a hurry.
  const Length apart = context.look.grid * 3;
  Length y = std::max(on_grid(title->size.height, context.look.grid), apart);
  frame->ops.emplace_back(Furniture{true});
  for (int i = 0; i < lines.lines; ++i, y += apart)
    frame->ops.emplace_back(rule_at({}, y, width, context.look.hairline, context.colour("rule")));
  frame->ops.emplace_back(Furniture{false});
  frame->size = {width, y - apart + context.look.grid};
  // More of them to the foot of the page, where there is nothing else.
  auto further = std::make_shared<Frame>();
  further->ops.emplace_back(
      rule_at({}, apart - context.look.grid, width, context.look.hairline, context.colour("rule")));
  further->size = {width, apart};
  FlowItem item;
  item.repeat_below = std::move(further);
  item.frame = std::move(frame);
  item.space_before = context.look.grid * 2;
  return {item};
}

Flow scale_bar_flow(const guide::ScaleBar& bar, Length width, Context& context) {
  if (context.ruled) return {}; // the page has one already
  const FramePtr ruler = ruler_frame(bar.inch_first, context);
  auto frame = std::make_shared<Frame>();
  Node node;
  node.type = "Figure";
  node.alternative = context.look.words.scale_bar;
  node.box = {{}, ruler->size};
  frame->ops.emplace_back(OpenNode{std::move(node), true});
  frame->ops.emplace_back(Stand{{}, ruler});
  frame->ops.emplace_back(CloseNode{});
  Length y = ruler->size.height + points(3);
  const FramePtr words = paragraph_frame(plain(context.look.words.scale_bar),
                                         context.look.style("small"), width, context);
  frame->ops.emplace_back(Stand{{{}, y}, words});
  frame->size = {width, on_grid(y + words->size.height, context.look.grid)};
  FlowItem item;
  item.frame = std::move(frame);
  item.space_before = context.look.grid;
  return {item};
}

} // namespace leafwright::page
