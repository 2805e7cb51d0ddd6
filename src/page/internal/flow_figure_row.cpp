#include "measure/index.h"
#include "page/context.h"
#include "page/internal/blocks.h"
#include "page/internal/paragraph.h"

#include <algorithm>
#include <cmath>
#include <span>

// Figures that stand together: a line of them, one large with lesser ones beside or below it, and
// what begins a chapter.

namespace leafwright::page {

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
  return frame_of(std::move(ops), cell);
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
  item.frame = frame_of(std::move(ops), {width, on_grid(height, grid)});
  item.space_before = grid * 2;
  item.break_cost = 30.0; // what it is made of is best seen beside it
  return {item};
}

// Figures in one line at one scale: the drawings share it out, their captions stand on one level,
// each under its own.
FlowItem line_of(std::span<const guide::Figure> figures, Size room, double scale, Length width,
                 Context& context) {
  const bool estimate = context.trial.estimate;
  const TextStyle& style = context.look.style("caption");
  std::vector<Size> sizes;
  Length tallest{};
  Length used{};
  for (const guide::Figure& figure : figures) {
    sizes.push_back(drawn_size(figure.scene, room, scale, estimate, context));
    tallest = std::max(tallest, sizes.back().height);
    used += sizes.back().width;
  }
  tallest = on_grid(tallest, context.look.grid);
  const Length between =
      figures.size() > 1 ? std::min((width - used) / static_cast<std::int64_t>(figures.size() - 1),
                                    context.look.gutter * 3)
                         : Length{};
  std::vector<Op> ops;
  Length height = tallest;
  Length x{};
  for (std::size_t i = 0; i < figures.size(); ++i) {
    const guide::Figure& figure = figures[i];
    if (!estimate)
      ops.emplace_back(
          Inset{{x, tallest - sizes[i].height},
                figure_frame(drawn(figure.scene, room, scale, context), figure.scene.alternative)});
    if (!figure.caption.empty()) {
      const FramePtr words =
          paragraph_frame(figure.caption, style, sizes[i].width + between * 3 / 4, context);
      ops.emplace_back(Inset{{x, tallest + style.before}, words});
      height = std::max(height, tallest + style.before + words->size.height);
    }
    x += sizes[i].width + between;
  }
  FlowItem item;
  item.frame = frame_of(std::move(ops), {width, on_grid(height, context.look.grid)});
  item.space_before = context.look.grid * 2;
  return item;
}

// The largest scale at which figures stand side by side, `across` in a line that they share out by
// their widths; none taller than `tallest`.
double scale_of_lines(std::span<const guide::Figure> figures, std::size_t across, Length width,
                      Length tallest, Context& context) {
  double scale = 1.0;
  for (std::size_t first = 0; first < figures.size(); first += across) {
    const auto line = figures.subspan(first, std::min(across, figures.size() - first));
    const Length gaps = context.look.gutter * static_cast<std::int64_t>(line.size() - 1);
    Length own{}, margins{};
    for (const guide::Figure& figure : line) {
      own += figure.scene.box.size.width;
      margins += context.figures.expected_size(figure.scene, 0.0).width;
      scale = std::min(scale, context.figures.fitting(figure.scene, {width, tallest}));
    }
    const Length room = std::max(width - gaps - margins, width / 3);
    if (own.nm > 0)
      scale = std::min(scale, static_cast<double>(room.nm) / static_cast<double>(own.nm));
  }
  return scale >= 1.0 ? 1.0 : std::max(std::floor(scale * 100.0) / 100.0, 0.02);
}

// How many stand in a line, the lines of equal length, and how large.
struct LineOfFigures {
  std::size_t across = 1;
  double scale = 1.0;
};

LineOfFigures best_lines(std::span<const guide::Figure> figures, Length width, Length tallest,
                         Context& context) {
  const std::size_t count = figures.size();
  const auto cell = [&](std::size_t across) {
    const auto of = static_cast<std::int64_t>(across);
    return (width - context.look.gutter * (of - 1)) / of;
  };
  const bool narrow = std::ranges::all_of(figures, [](const guide::Figure& figure) {
    return figure.width == guide::Figure::Width::Narrow;
  });
  const Length narrowest = millimetres(narrow ? 18 : 42);
  // As many in a line as keep the drawings of a fair size; where that parts them, in equal cells.
  std::size_t lines = 1;
  while (lines < count && cell((count + lines - 1) / lines) < narrowest) ++lines;
  if (lines > 1) {
    LineOfFigures cells{(count + lines - 1) / lines};
    for (const guide::Figure& figure : figures)
      cells.scale = std::min(cells.scale,
                             context.figures.fitting(figure.scene, {cell(cells.across), tallest}));
    return cells;
  }
  LineOfFigures best{count, scale_of_lines(figures, count, width, tallest, context)};
  // Across the page two lines in the height of one, where that makes them much larger.
  constexpr double much = 1.25;
  const std::size_t half = (count + 1) / 2;
  if (count > 2 && stands_beside(width, context))
    if (const double scale = scale_of_lines(figures, half, width, tallest / 2, context);
        scale > best.scale * much)
      best = {half, scale};
  return best;
}

// Figures side by side at one scale, in as many lines as it takes; none taller than `tallest`.
Flow side_by_side(std::span<const guide::Figure> figures, Length width, Length tallest,
                  Context& context) {
  if (figures.empty()) return {};
  const auto [across, fits] = best_lines(figures, width, tallest, context);
  // A row of finished cards is what the reader looks for: it gives way less than other figures.
  const double scale = shrunk(fits, std::sqrt(context.trial.shrink));
  Flow flow;
  for (std::size_t first = 0; first < figures.size(); first += across)
    flow.push_back(line_of(figures.subspan(first, std::min(across, figures.size() - first)),
                           {width, tallest}, scale, width, context));
  return flow;
}

// Things to be known again, in cells of one width, each at a scale of its own; their words below.
Flow swatches_flow(std::span<const guide::Figure> figures, Length width, Context& context) {
  const Length gap = context.look.cell_gap;
  constexpr Length narrowest = millimetres(16);
  const auto most = std::max<std::int64_t>(1, (width + gap).nm / (narrowest + gap).nm);
  const auto count = static_cast<std::int64_t>(figures.size());
  const std::int64_t lines = (count + most - 1) / most;
  const std::int64_t across = (count + lines - 1) / lines;
  const Length cell = (width - gap * (across - 1)) / across;
  const Size room{cell, context.look.grid * 6};
  const TextStyle& style = context.look.style("caption");
  Flow flow;
  for (std::int64_t first = 0; first < count; first += across) {
    std::vector<Op> ops;
    Length height{};
    Length x{};
    for (std::int64_t i = first; i < std::min(first + across, count); ++i) {
      const guide::Figure& figure = figures[as_index(i)];
      const double scale = context.figures.fitting(figure.scene, room);
      const Size size = drawn_size(figure.scene, room, scale, context.trial.estimate, context);
      if (!context.trial.estimate)
        ops.emplace_back(Inset{
            {x, room.height - size.height},
            figure_frame(drawn(figure.scene, room, scale, context), figure.scene.alternative)});
      const FramePtr words = paragraph_frame(figure.caption, style, cell, context);
      ops.emplace_back(Inset{{x, room.height + style.before}, words});
      height = std::max(height, room.height + style.before + words->size.height);
      x += cell + gap;
    }
    FlowItem item;
    item.frame = frame_of(std::move(ops), {width, on_grid(height, context.look.grid)});
    item.space_before = context.look.grid;
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
  if (row.swatches) return swatches_flow(row.figures, width, context);
  if (!row.leads) return side_by_side(row.figures, width, context.text_height * 45 / 100, context);
  return context.look.openings.others_below ? leading_over(row, width, context)
                                            : leading_flow(row, width, context);
}

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
  item.frame = frame_of({Inset{{}, front}, Inset{{x, {}}, side}},
                        {width, on_grid(std::max(front->size.height, side->size.height), grid)});
  return {item};
}

} // namespace leafwright::page
