#include "page/blocks.h"
#include "page/figures.h"
#include "page/paragraph.h"

#include <fmt/format.h>

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

// One full-size drawing with its title above and note below.
struct Set {
  FramePtr frame;
  Place place;
};

Set set_full_size(const guide::FullSize& drawing, Length width, bool on_its_side,
                  Context& context) {
  const Size room{width, context.text_height};
  const Drawn& figure = drawn(drawing.scene, on_its_side ? room.turned() : room, 1.0, context);
  std::shared_ptr<const Drawing> picture = figure.drawing;
  if (on_its_side) picture = std::make_shared<const Drawing>(turned_drawing(*picture, degrees(90)));
  const Length across = std::max(picture->size.width, std::min(width, millimetres(60)));
  const FramePtr title =
      paragraph_frame(plain(drawing.title), context.look.style("step-title"), across, context);
  FramePtr note;
  if (!drawing.note.empty())
    note = paragraph_frame(drawing.note, context.look.style("caption"), across, context);
  auto frame = std::make_shared<Frame>();
  Length y{};
  if (!drawing.title.empty()) {
    frame->ops.emplace_back(Stand{{}, title});
    y += title->size.height + context.look.grid / 2;
  }
  Node node;
  node.type = "Figure";
  node.alternative = drawing.scene.alternative;
  node.box = {{{}, y}, picture->size};
  frame->ops.emplace_back(OpenNode{std::move(node), true});
  frame->ops.emplace_back(StandDrawing{{{}, y}, picture});
  frame->ops.emplace_back(CloseNode{});
  y += picture->size.height;
  if (note) {
    y += context.look.grid / 2;
    frame->ops.emplace_back(Stand{{{}, y}, note});
    y += note->size.height;
  }
  frame->size = {across, on_grid(y, context.look.grid)};
  return {std::move(frame), context.place};
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

Flow scale_bar_flow(const guide::ScaleBar& bar, Length width, Context& context) {
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

Flow full_size_flow(std::span<const guide::FullSize* const> drawings, Length width,
                    Context& context) {
  Flow flow;
  const Length gap = context.look.gutter;
  std::vector<Set> row;
  Length used{};
  const auto end_row = [&] {
    if (row.empty()) return;
    auto frame = std::make_shared<Frame>();
    Length x{};
    Length tallest{};
    for (const Set& set : row) {
      frame->ops.emplace_back(Stand{{x, {}}, set.frame});
      x += set.frame->size.width + gap;
      tallest = std::max(tallest, set.frame->size.height);
    }
    frame->size = {width, tallest};
    FlowItem item;
    item.frame = std::move(frame);
    item.space_before = context.look.grid * 3;
    flow.push_back(std::move(item));
    row.clear();
    used = {};
  };
  for (const guide::FullSize* drawing : drawings) {
    const Size page{width, context.text_height};
    Set set = set_full_size(*drawing, width, false, context);
    const Size upright = set.frame->size;
    // On its side when it has no room upright, or when two of them then share a page.
    const bool alone =
        upright.width * 2 + gap > width && upright.height * 2 + context.look.grid * 3 > page.height;
    if (!fits(upright, page) || (alone && upright.height > upright.width)) {
      Set turned = set_full_size(*drawing, width, true, context);
      const bool pays = turned.frame->size.height * 2 + context.look.grid * 3 <= page.height;
      if (fits(turned.frame->size, page) && (!fits(upright, page) || pays)) set = std::move(turned);
    }
    if (!fits(set.frame->size, page))
      context.tell(Severity::Warning, "page-too-large",
                   fmt::format("“{}” is {:.0f} × {:.0f} mm at full size", drawing->title,
                               in_mm(upright.width), in_mm(upright.height)),
                   fmt::format("at most {:.0f} × {:.0f} mm of drawing on this paper",
                               in_mm(page.width), in_mm(page.height)),
                   "choose larger paper in the template for full-size drawings");
    if (!row.empty() && used + gap + set.frame->size.width > width) end_row();
    used += (row.empty() ? Length{} : gap) + set.frame->size.width;
    row.push_back(std::move(set));
  }
  end_row();
  return flow;
}

} // namespace leafwright::page
