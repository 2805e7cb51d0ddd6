#include "measure/print_length.h"
#include "page/context.h"
#include "page/internal/blocks.h"
#include "page/internal/paragraph.h"

#include <fmt/format.h>

#include <algorithm>

namespace leafwright::page {

namespace {

// A drawing at full size, upright or on its side, and how it sits in the room a page gives.
struct Way {
  std::shared_ptr<const Drawing> drawing;
  bool fits_room = false;
  bool crowded = false;
};

Way drawn_in(const figure::Scene& scene, Size room, bool on_its_side, Context& context) {
  const Drawn& figure = context.figures.composed(scene, on_its_side ? room.turned() : room, 1.0);
  Way way{figure.drawing, false, figure.crowded};
  if (on_its_side)
    way.drawing = std::make_shared<const Drawing>(turned_drawing(*way.drawing, degrees(90)));
  way.fits_room = fits(way.drawing->size, room);
  return way;
}

// Title above, note below, and between them what `put` draws at the point it is given. The first
// sheet of a drawing is where links to it lead.
template <class Put>
FramePtr framed(const guide::FullSize& what, const std::string& heading, bool first, Size size,
                Length width, Context& context, Put put) {
  const Length across = std::max(size.width, std::min(width, millimetres(60)));
  auto frame = std::make_shared<Frame>();
  if (first && !what.anchor.empty()) frame->ops.emplace_back(AnchorHere{what.anchor, what.title});
  Length y{};
  if (!heading.empty()) {
    const FramePtr title =
        paragraph_frame(plain(heading), context.look.style("step-title"), across, context);
    frame->ops.emplace_back(Inset{{}, title});
    y += title->size.height + context.look.grid / 2;
  }
  Node node;
  node.type = "Figure";
  node.alternative = what.scene.alternative;
  node.box = {{{}, y}, size};
  frame->ops.emplace_back(OpenNode{std::move(node), true});
  put(*frame, Point{{}, y});
  frame->ops.emplace_back(CloseNode{});
  y += size.height;
  if (!what.note.empty()) {
    const FramePtr note =
        paragraph_frame(what.note, context.look.style("caption"), across, context);
    y += context.look.grid / 2;
    frame->ops.emplace_back(Inset{{{}, y}, note});
    y += note->size.height;
  }
  frame->size = {across, on_grid(y, context.look.grid)};
  return frame;
}

std::int64_t tiles_along(Length whole, Length tile, Length overlap) {
  if (whole <= tile) return 1;
  const Length step = tile - overlap;
  return (whole.nm - overlap.nm + step.nm - 1) / step.nm;
}

// The part of a drawing that one sheet shows: clipped, with its edges dashed where the next one
// joins.
void put_tile(Frame& into, Point at, const Drawing& drawing, Rect tile, Context& context) {
  into.ops.emplace_back(DrawItem{PushClip{rectangle({at, tile.size})}});
  auto part = std::make_shared<Drawing>();
  part->size = drawing.size;
  for (const DrawItem& item : drawing.items) {
    // A mark says where the whole of a thing is; a part of it would say something false.
    const Mark* mark = std::get_if<Mark>(&item);
    if (mark == nullptr || tile.contains(mark->box)) part->items.push_back(item);
  }
  into.ops.emplace_back(InsetDrawing{at - tile.origin, std::move(part)});
  into.ops.emplace_back(DrawItem{PopClip{}});
  Stroke edge;
  edge.path = rectangle({at, tile.size});
  edge.colour = context.colour("quiet");
  edge.width = context.look.hairline;
  edge.dash = {points(4), points(3)};
  into.ops.emplace_back(DrawItem{std::move(edge)});
}

// A drawing larger than the paper on as many sheets as it takes, to be joined.
std::vector<FramePtr> tiled(const guide::FullSize& what, Size room, Length width,
                            Context& context) {
  constexpr Length overlap = millimetres(8);
  constexpr std::int64_t most_sheets = 24;
  const Size open{millimetres(5000), millimetres(5000)};
  Way best = drawn_in(what.scene, open, false, context);
  const auto sheets = [&](const Way& way) {
    return tiles_along(way.drawing->size.width, room.width, overlap) *
           tiles_along(way.drawing->size.height, room.height, overlap);
  };
  Way side = drawn_in(what.scene, open, true, context);
  if (sheets(side) < sheets(best)) best = std::move(side);
  const Size whole = best.drawing->size;
  const std::int64_t count = sheets(best);
  context.tell(
      count > most_sheets ? Severity::Warning : Severity::Note, "page-too-large",
      fmt::format("“{}” is {} at full size", what.title, size_text(whole, context.input.printing)),
      fmt::format("at most {} on one sheet", size_text(room, context.input.printing)),
      count > most_sheets ? "choose larger paper in the template"
                          : fmt::format("join its {} sheets, or choose larger paper", count));
  std::vector<FramePtr> frames;
  if (count > most_sheets) return frames;
  const Length step_x = room.width - overlap;
  const Length step_y = room.height - overlap;
  const std::int64_t across = tiles_along(whole.width, room.width, overlap);
  for (std::int64_t k = 0; k < count; ++k) {
    const Point origin{step_x * (k % across), step_y * (k / across)};
    const Rect tile{origin,
                    {std::min(room.width, whole.width - origin.x),
                     std::min(room.height, whole.height - origin.y)}};
    std::string heading = context.look.words.tile;
    replace_all(heading, "{title}", what.title);
    replace_all(heading, "{part}", fmt::format("{}", k + 1));
    replace_all(heading, "{parts}", fmt::format("{}", count));
    frames.push_back(
        framed(what, heading, k == 0, tile.size, width, context,
               [&](Frame& frame, Point at) { put_tile(frame, at, *best.drawing, tile, context); }));
  }
  return frames;
}

// How one drawing would stand by itself.
struct Choice {
  Way upright, side;
  bool side_shares = false; // two of its kind fit on a page on their sides, and not upright
};

Choice choice_for(const guide::FullSize& what, Size room, Length width, Context& context) {
  const Length words = context.text_height - room.height; // title and note
  Choice choice;
  choice.upright = drawn_in(what.scene, room, false, context);
  const Size size = choice.upright.drawing->size;
  const bool alone = size.width * 2 + context.look.gutter > width &&
                     (size.height + words) * 2 > context.text_height;
  if (!choice.upright.fits_room || choice.upright.crowded || (alone && size.height > size.width)) {
    choice.side = drawn_in(what.scene, room, true, context);
    choice.side_shares = alone && choice.side.fits_room &&
                         choice.side.crowded == choice.upright.crowded &&
                         (choice.side.drawing->size.height + words) * 2 <= context.text_height;
  }
  return choice;
}

// `shares`: its neighbour, too, would lie on its side, so that both stand on one page.
std::vector<FramePtr> set_full_size(const guide::FullSize& what, const Choice& choice, bool shares,
                                    Size room, Length width, Context& context) {
  Way way = choice.upright;
  const bool better = !way.fits_room || (way.crowded && !choice.side.crowded) || shares;
  if (choice.side.fits_room && better) way = choice.side;
  if (!way.fits_room) return tiled(what, room, width, context);
  if (way.crowded)
    context.tell(Severity::Warning, "page-crowded",
                 fmt::format("no room for every label of the drawing “{}”", what.scene.alternative),
                 "a drawing whose labels all find a place", "choose larger paper in the template");
  return {framed(what, what.title, true, way.drawing->size, width, context,
                 [&](Frame& frame, Point at) {
                   frame.ops.emplace_back(InsetDrawing{at, way.drawing});
                 })};
}

} // namespace

Flow full_size_flow(std::span<const guide::Block> blocks, Length width, Context& context) {
  Flow flow;
  const Length gap = context.look.gutter;
  std::vector<FramePtr> row;
  Length used{};
  const auto end_row = [&] {
    if (row.empty()) return;
    auto frame = std::make_shared<Frame>();
    Length x{};
    Length tallest{};
    for (const FramePtr& set : row) {
      frame->ops.emplace_back(Inset{{x, {}}, set});
      x += set->size.width + gap;
      tallest = std::max(tallest, set->size.height);
    }
    frame->size = {width, tallest};
    FlowItem item;
    item.frame = std::move(frame);
    item.space_before = context.look.grid * 3;
    item.full_size = true;
    flow.push_back(std::move(item));
    row.clear();
    used = {};
  };
  const Size room{width, context.text_height - context.look.grid * 7}; // without title and note
  std::vector<Choice> choices;
  for (const guide::Block& block : blocks)
    choices.push_back(choice_for(std::get<guide::FullSize>(block.what), room, width, context));
  for (std::size_t i = 0; i < blocks.size(); ++i) {
    if (blocks[i].place.line > 0) context.place = blocks[i].place;
    const auto& drawing = std::get<guide::FullSize>(blocks[i].what);
    const bool shares =
        choices[i].side_shares && ((i > 0 && choices[i - 1].side_shares) ||
                                   (i + 1 < choices.size() && choices[i + 1].side_shares));
    for (FramePtr& set : set_full_size(drawing, choices[i], shares, room, width, context)) {
      if (!row.empty() && used + gap + set->size.width > width) end_row();
      used += (row.empty() ? Length{} : gap) + set->size.width;
      row.push_back(std::move(set));
    }
  }
  end_row();
  return flow;
}

} // namespace leafwright::page
