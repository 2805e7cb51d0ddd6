#include "page/context.h"
#include "page/internal/blocks.h"
#include "page/paragraph.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <span>

namespace leafwright::page {

namespace {

FramePtr with_ops(std::vector<Op> ops, Size size) {
  auto frame = std::make_shared<Frame>();
  frame->size = size;
  frame->ops = std::move(ops);
  return frame;
}

double width_share(guide::Figure::Width width) {
  using enum guide::Figure::Width;
  return width == Narrow ? 0.32 : width == Half ? 0.5 : 1.0;
}

} // namespace

bool is_sheet(const figure::Scene& scene) {
  return std::ranges::any_of(scene.items, [](const figure::SceneItem& item) {
    const auto* mark = std::get_if<figure::SceneMark>(&item);
    return mark != nullptr && mark->kind == "sheet";
  });
}

FramePtr figure_frame(const Drawn& composed, const std::string& alternative) {
  Node node;
  node.type = "Figure";
  node.alternative = alternative;
  node.box = {{}, composed.drawing->size};
  return with_ops(
      {OpenNode{std::move(node), true}, InsetDrawing{{}, composed.drawing}, CloseNode{}},
      composed.drawing->size);
}

const Drawn& drawn(const figure::Scene& scene, Size room, double scale, Context& context) {
  const Drawn& composed = context.figures.composed(scene, room, scale);
  if (composed.crowded)
    context.tell(Severity::Warning, "page-crowded",
                 fmt::format("no room for every label of the drawing “{}”", scene.alternative),
                 "a drawing whose labels all find a place",
                 "give the figure more width in the template, or fewer labels");
  return composed;
}

std::string scale_note(const figure::Scene& scene, double scale, const Context& context) {
  if (!is_sheet(scene)) return {};
  if (scale == 1.0) return context.look.words.true_size;
  std::string note = context.look.words.drawn_at;
  const std::string_view place = "{percent}";
  if (const auto at = note.find(place); at != std::string::npos)
    note.replace(at, place.size(), fmt::format("{:.0f}", std::round(scale * 100.0)));
  return note;
}

Size drawn_size(const figure::Scene& scene, Size room, double scale, bool estimate,
                Context& context) {
  if (estimate) return context.figures.expected_size(scene, scale);
  return drawn(scene, room, scale, context).drawing->size;
}

double shrunk(double scale, double shrink) {
  const double wanted = scale * shrink;
  if (shrink >= 1.0 || wanted < 0.06) return scale;
  return std::floor(wanted * 100.0) / 100.0;
}

FramePtr captioned(const guide::Figure& figure, Size room, double scale, bool estimate,
                   Context& context) {
  const Size size = drawn_size(figure.scene, room, scale, estimate, context);
  guide::Inlines caption = figure.caption;
  // In a narrow column among others alike it would only be said again and again.
  const std::string note =
      stands_beside(room.width, context) ? scale_note(figure.scene, scale, context) : std::string{};
  if (!note.empty()) caption.emplace_back(guide::Words{(caption.empty() ? "" : " ") + note});
  std::vector<Op> ops;
  if (!estimate)
    ops.emplace_back(Inset{
        {}, figure_frame(drawn(figure.scene, room, scale, context), figure.scene.alternative)});
  Length y = size.height;
  if (!caption.empty()) {
    const TextStyle& style = context.look.style("caption");
    // No wider than the drawing, unless that is narrow.
    const Length wide = std::min(room.width, std::max(size.width, millimetres(45)));
    const FramePtr words = paragraph_frame(caption, style, wide, context);
    y = on_grid(y, context.look.grid) + style.before;
    ops.emplace_back(Inset{{{}, y}, words});
    y += words->size.height;
  }
  return with_ops(std::move(ops), {size.width, on_grid(y, context.look.grid)});
}

std::string scale_group_of(const figure::Scene& scene) {
  return fmt::format("{} {} {}", scene.scale_group, scene.box.size.width.nm,
                     scene.box.size.height.nm);
}

double chosen_scale(const figure::Scene& scene, Size room, Context& context) {
  const double fits = context.figures.fitting(scene, room);
  const auto found = context.group_scales.find(scale_group_of(scene));
  if (scene.scale_group.empty() || found == context.group_scales.end()) return fits;
  return std::min(fits, found->second);
}

bool stands_beside(Length width, const Context& context) {
  // In ems: large print needs the whole width for its words.
  return width >= context.look.style("body").size * 34;
}

Size beside_room(const guide::Beside& beside, Length width, const Context& context) {
  using enum guide::Figure::Width;
  const bool narrow = beside.figure.width == Narrow;
  if (!stands_beside(width, context))
    return {width, context.text_height * (narrow ? 30 : 42) / 100};
  const double share = narrow ? 0.3 : beside.figure.width == Half ? 0.54 : 0.6;
  const Length room{
      static_cast<std::int64_t>(static_cast<double>((width - context.look.gutter).nm) * share)};
  return {room, context.text_height * (narrow ? 30 : 85) / 100};
}

Length beside_words_width(const guide::Beside& beside, Length width, const Context& context) {
  if (!stands_beside(width, context)) return width;
  return width - beside_room(beside, width, context).width - context.look.gutter;
}

Size figure_room(const guide::Figure& figure, Length width, const Context& context) {
  const double share = width_share(figure.width);
  const Length room{static_cast<std::int64_t>(static_cast<double>(width.nm) * share)};
  const Length tallest = figure.width == guide::Figure::Width::Full
                             ? context.text_height * 8 / 10
                             : context.text_height * 55 / 100;
  return {room, tallest};
}

namespace {

// The pieces of a card, set out below what they become.
Flow set_out_flow(const guide::Figure& figure, Length width, Context& context) {
  const Size room{width, times(context.text_height, 0.42 * context.trial.shrink)};
  const Drawn& out = context.figures.set_out(figure.scene, room);
  FlowItem item;
  item.frame = with_ops({Inset{{}, figure_frame(out, figure.scene.alternative)}},
                        {width, on_grid(out.drawing->size.height, context.look.grid)});
  item.space_before = context.look.grid * 2;
  return {item};
}

} // namespace

Flow figure_flow(const guide::Figure& figure, Length width, Context& context) {
  if (!figure.scene.laid_out.empty()) return set_out_flow(figure, width, context);
  const Size room = figure_room(figure, width, context);
  FlowItem item;
  item.frame = captioned(figure, room,
                         shrunk(chosen_scale(figure.scene, room, context), context.trial.shrink),
                         context.trial.estimate, context);
  item.space_before = context.look.grid;
  return {item};
}

namespace {

// The drawings of `figures` under each other, all at one scale, no wider than `room.width`; the
// largest scale at which they and their captions are no taller than `room.height`.
double stacked_scale(std::span<const guide::Figure> figures, Size room, Length caption_height,
                     Context& context) {
  for (int percent = 100; percent > 6; --percent) {
    const double scale = percent / 100.0;
    Length height{};
    bool fits = true;
    for (const guide::Figure& figure : figures) {
      const Size size = context.figures.expected_size(figure.scene, scale);
      fits = fits && size.width <= room.width && scale <= figure.scene.largest_scale;
      height += size.height + caption_height;
    }
    if (fits && height <= room.height) return scale;
  }
  return 0.06;
}

// The tallest that the picture may be which a card's section begins with.
Length tallest_opening(const Context& context) {
  return Length{static_cast<std::int64_t>(static_cast<double>(context.text_height.nm) *
                                          context.look.openings.picture_height *
                                          std::sqrt(context.trial.shrink))};
}

// A figure large in the middle of the page's ground.
FramePtr on_ground(const guide::Figure& figure, Length width, double& scale, Context& context) {
  const Length grid = context.look.grid;
  const bool estimate = context.trial.estimate;
  const Size inside{width - grid * 4, tallest_opening(context) - grid * 4};
  scale = context.figures.fitting(figure.scene, inside);
  const Size size = drawn_size(figure.scene, inside, scale, estimate, context);
  const Size cell{width, on_grid(size.height + grid * 4, grid)};
  std::vector<Op> ops;
  if (!estimate) {
    ops.emplace_back(Furniture{true});
    ops.emplace_back(DrawItem{Fill{rectangle({{}, cell}), context.figure_look.ground, 1.0}});
    ops.emplace_back(Furniture{false});
    ops.emplace_back(
        Inset{{(cell.width - size.width) / 2, (cell.height - size.height) / 2},
              figure_frame(drawn(figure.scene, inside, scale, context), figure.scene.alternative)});
  }
  return with_ops(std::move(ops), cell);
}

// The first figure large on the page's ground, the others in a column at its right.
Flow leading_flow(const guide::FigureRow& row, Length width, Context& context) {
  const Length grid = context.look.grid;
  const TextStyle& style = context.look.style("caption");
  const bool alone = row.figures.size() == 1;
  const bool estimate = context.trial.estimate;
  const Length column = alone ? width : (width - context.look.gutter) * 55 / 100;
  const guide::Figure& first = row.figures.front();
  double scale = 0;
  const FramePtr front = on_ground(first, column, scale, context);
  const Size cell = front->size;
  std::vector<Op> ops;
  ops.emplace_back(Inset{{}, front});
  Length height = cell.height;
  const auto caption = [&](const guide::Figure& figure, Point at, Length room) {
    if (figure.caption.empty()) return;
    const FramePtr words = paragraph_frame(figure.caption, style, room, context);
    ops.emplace_back(Inset{at + Point{{}, style.before}, words});
    height = std::max(height, at.y + style.before + words->size.height);
  };
  caption(first, {{}, cell.height}, cell.width);
  if (!alone) {
    const std::span<const guide::Figure> others = std::span(row.figures).subspan(1);
    const Length x = column + context.look.gutter;
    const Length line = style.before + style.leading;
    // The last caption stands beside the first figure's own, below the ground.
    const Length gap = grid * 2;
    const Size room{width - x, cell.height + line};
    const double small = std::min(scale, stacked_scale(others, room, line + gap / 2, context));
    Length total{};
    std::vector<Size> sizes;
    for (const guide::Figure& figure : others) {
      sizes.push_back(drawn_size(figure.scene, room, small, estimate, context));
      total += sizes.back().height + line;
    }
    const Length between = std::max(
        Length{}, (room.height - total) /
                      static_cast<std::int64_t>(std::max<std::size_t>(others.size() - 1, 1)));
    Length y = others.size() == 1 ? room.height - total : Length{};
    for (std::size_t i = 0; i < others.size(); ++i) {
      if (!estimate)
        ops.emplace_back(Inset{{x, y},
                               figure_frame(drawn(others[i].scene, room, small, context),
                                            others[i].scene.alternative)});
      y += sizes[i].height;
      caption(others[i], {x, y}, room.width);
      y += line + between;
    }
  }
  FlowItem item;
  item.frame = with_ops(std::move(ops), {width, on_grid(height, grid)});
  item.space_before = grid * 2;
  item.break_cost = 30.0; // what it is made of is best seen beside it
  return {item};
}

// Figures side by side at one scale, in as many lines as it takes; none taller than `tallest`.
Flow side_by_side(std::span<const guide::Figure> figures, Length width, Length tallest_allowed,
                  Context& context) {
  const std::size_t count = figures.size();
  if (count == 0) return {};
  // As many in a line as keep the drawings of a fair size; lines of equal length.
  const Length gap = context.look.gutter;
  std::size_t lines = 1;
  const bool narrow = std::ranges::all_of(figures, [](const guide::Figure& figure) {
    return figure.width == guide::Figure::Width::Narrow;
  });
  const Length narrowest = millimetres(narrow ? 18 : 42);
  const auto per_line = [&] { return (count + lines - 1) / lines; };
  while (lines < count && (width - gap * static_cast<std::int64_t>(per_line() - 1)) /
                                  static_cast<std::int64_t>(per_line()) <
                              narrowest)
    ++lines;
  const std::size_t across = per_line();
  const Length cell =
      (width - gap * static_cast<std::int64_t>(across - 1)) / static_cast<std::int64_t>(across);
  const Size room{cell, tallest_allowed};
  double scale = 0.0;
  for (const guide::Figure& figure : figures) {
    const double fits = context.figures.fitting(figure.scene, room);
    scale = scale == 0.0 ? fits : std::min(scale, fits);
  }
  // A row of finished cards is what the reader looks for: it gives way less than other figures.
  scale = shrunk(scale, std::sqrt(context.trial.shrink));
  const bool estimate = context.trial.estimate;
  const auto size_of = [&](const guide::Figure& figure) {
    return drawn_size(figure.scene, room, scale, estimate, context);
  };
  Flow flow;
  for (std::size_t first = 0; first < count; first += across) {
    const std::size_t end = std::min(first + across, count);
    std::vector<FramePtr> frames;
    Length tallest{};
    Length used{};
    for (std::size_t i = first; i < end; ++i) {
      const Size size = size_of(figures[i]);
      tallest = std::max(tallest, size.height);
      used += size.width;
    }
    tallest = on_grid(tallest, context.look.grid);
    const TextStyle& style = context.look.style("caption");
    std::vector<Op> ops;
    Length height = tallest;
    // The drawings share out the line; the captions stand on one level, each under its own.
    const Length spare = width - used;
    const Length between =
        end - first > 1 ? std::min(spare / static_cast<std::int64_t>(end - first - 1), gap * 3)
                        : Length{};
    Length x{};
    for (std::size_t i = first; i < end; ++i) {
      const guide::Figure& figure = figures[i];
      const Size size = size_of(figure);
      if (!estimate)
        ops.emplace_back(Inset{
            {x, tallest - size.height},
            figure_frame(drawn(figure.scene, room, scale, context), figure.scene.alternative)});
      if (!figure.caption.empty()) {
        const FramePtr words =
            paragraph_frame(figure.caption, style, size.width + between * 3 / 4, context);
        ops.emplace_back(Inset{{x, tallest + style.before}, words});
        height = std::max(height, tallest + style.before + words->size.height);
      }
      x += size.width + between;
    }
    FlowItem item;
    item.frame = with_ops(std::move(ops), {width, on_grid(height, context.look.grid)});
    item.space_before = context.look.grid * 2;
    flow.push_back(std::move(item));
  }
  return flow;
}

// The first figure over the whole width, the others in a line below it.
Flow leading_over(const guide::FigureRow& row, Length width, Context& context) {
  const std::span<const guide::Figure> figures(row.figures);
  double scale = 0;
  FlowItem item;
  item.frame = on_ground(figures.front(), width, scale, context);
  item.space_before = context.look.grid * 2;
  Flow flow{item};
  if (figures.size() > 1) flow.front().keep_with_next = true;
  Flow below = side_by_side(figures.subspan(1), width, context.text_height * 20 / 100, context);
  std::move(below.begin(), below.end(), std::back_inserter(flow));
  flow.back().break_cost = 30.0;
  return flow;
}

} // namespace

Flow figure_row_flow(const guide::FigureRow& row, Length width, Context& context) {
  if (row.figures.empty()) return {};
  if (!row.leads) return side_by_side(row.figures, width, context.text_height * 45 / 100, context);
  return context.look.openings.others_below ? leading_over(row, width, context)
                                            : leading_flow(row, width, context);
}

namespace {

// The figure first, then the words over the full width.
Flow figure_above_words(FramePtr figure, Flow words, Length grid) {
  Flow flow;
  FlowItem item;
  item.frame = std::move(figure);
  item.keep_with_next = true;
  item.space_before = grid;
  flow.push_back(std::move(item));
  if (!words.empty()) words.front().space_before = std::max(words.front().space_before, grid);
  // A figure and its words are best read in one column.
  constexpr double parting = 40.0;
  for (FlowItem& word : words) word.break_cost += parting;
  constexpr std::size_t opening = 3; // lines that stay with the figure
  for (std::size_t i = 0; i + 1 < words.size() && i < opening; ++i) words[i].keep_with_next = true;
  if (!words.empty()) words.back().break_cost -= parting;
  std::move(words.begin(), words.end(), std::back_inserter(flow));
  return flow;
}

} // namespace

namespace {

// What begins a chapter: its figure large, what is said of it at the right, or below on a narrow
// page.
Flow chapter_opening(const guide::Beside& beside, Length width, Context& context) {
  const Length grid = context.look.grid;
  const bool below = context.look.openings.others_below;
  const Length column = below ? width : (width - context.look.gutter) * 58 / 100;
  double scale = 0;
  const FramePtr front = on_ground(beside.figure, column, scale, context);
  FlowItem item;
  item.space_before = grid;
  item.keep_with_next = true;
  if (below) {
    item.frame = front;
    Flow flow{item};
    Flow words = blocks_flow(beside.blocks, width, context);
    for (FlowItem& word : words) word.keep_with_next = true;
    std::move(words.begin(), words.end(), std::back_inserter(flow));
    flow.back().keep_with_next = false;
    flow.back().break_cost = 30.0;
    return flow;
  }
  const Length x = column + context.look.gutter * 3 / 2;
  Flow words;
  for (const guide::Block& block : beside.blocks) {
    // The lesser pictures take what the facts leave of the front's height.
    const auto* row = std::get_if<guide::FigureRow>(&block.what);
    const Length left = front->size.height - height(words) - grid * 6;
    Flow part = row != nullptr
                    ? side_by_side(row->figures, width - x,
                                   std::max(left, context.text_height * 12 / 100), context)
                    : blocks_flow({&block, 1}, width - x, context);
    std::move(part.begin(), part.end(), std::back_inserter(words));
  }
  const FramePtr side = stacked(words, width - x);
  item.frame = with_ops({Inset{{}, front}, Inset{{x, {}}, side}},
                        {width, on_grid(std::max(front->size.height, side->size.height), grid)});
  return {item};
}

// A drawing and its words in a narrow column, on one page of it unless they fill most of one.
Flow in_one_column(FramePtr figure, const guide::Beside& beside, Length width, Context& context) {
  Flow flow = figure_above_words(std::move(figure), blocks_flow(beside.blocks, width, context),
                                 context.look.grid);
  if (is_sheet(beside.figure.scene) && height(flow) <= context.text_height * 7 / 10) {
    for (std::size_t i = 0; i + 1 < flow.size(); ++i) flow[i].keep_with_next = true;
  } else if (!beside.title.empty()) {
    const FramePtr again = paragraph_frame(plain(beside.title + ", continued"),
                                           context.look.style("heading-3"), width, context, "");
    for (std::size_t i = 1; i < flow.size(); ++i) {
      flow[i].repeat_head = again;
      flow[i].head_space = on_grid(again->size.height, context.look.grid);
    }
  }
  return flow;
}

} // namespace

Flow beside_flow(const guide::Beside& beside, Length width, Context& context) {
  if (beside.opens) return chapter_opening(beside, width, context);
  const Size room = beside_room(beside, width, context);
  const figure::Scene& scene = beside.figure.scene;
  const double scale = shrunk(chosen_scale(scene, room, context), context.trial.shrink);
  const FramePtr figure = captioned(beside.figure, room, scale, context.trial.estimate, context);
  if (!stands_beside(width, context)) return in_one_column(figure, beside, width, context);
  const Length left_used = std::min(std::max(figure->size.width, room.width / 2), room.width);
  const Length x = left_used + context.look.gutter;
  Flow words = blocks_flow(beside.blocks, width - x, context);
  // Too much to stand beside anything: what fills most of a page must be able to part.
  if (height(words) > context.text_height * 7 / 10)
    return figure_above_words(figure, blocks_flow(beside.blocks, width, context),
                              context.look.grid);
  const FramePtr side = stacked(words, width - x);
  FlowItem item;
  item.frame = with_ops(
      {Inset{{}, figure}, Inset{{x, {}}, side}},
      {width, on_grid(std::max(figure->size.height, side->size.height), context.look.grid)});
  item.space_before = context.look.grid * 3;
  const double part_of_width =
      static_cast<double>(left_used.nm) / static_cast<double>(std::max(width.nm, std::int64_t{1}));
  const auto fill = [&](Length part) {
    return item.frame->size.height.nm > 0
               ? static_cast<double>(part.nm) / static_cast<double>(item.frame->size.height.nm)
               : 1.0;
  };
  item.filled = std::min(1.0, part_of_width * fill(figure->size.height) +
                                  (1.0 - part_of_width) * fill(side->size.height));
  return {item};
}

} // namespace leafwright::page
