#include "page/blocks.h"
#include "page/figures.h"
#include "page/paragraph.h"
#include "page/steps.h"

#include <algorithm>
#include <cmath>

namespace leafwright::page {

namespace {

Node node_of(std::string type) {
  Node node;
  node.type = std::move(type);
  return node;
}

Length times(Length a, double factor) {
  return {static_cast<std::int64_t>(static_cast<double>(a.nm) * factor)};
}

Length number_width(const Context& context) {
  return on_grid(context.look.style("step-number").size * 14 / 10, context.look.grid);
}

Length column_width(Length width, const Context& context) {
  return (width - context.look.gutter) / 2;
}

Size room_in(const Trial& choice, Length width, const Context& context) {
  const StepRule& rule = context.look.steps;
  return {choice.columns ? column_width(width, context) : times(width, rule.figure_share),
          rule.largest_figure};
}

Size figure_size(const guide::Step& step, const Trial& choice, Length width, Context& context) {
  return drawn_size(step.figure->scene, room_in(choice, width, context), choice.step_scale,
                    choice.estimate, context);
}

// The figure on its ground: a cell of `cell`, the drawing centred in it.
std::vector<Op> figure_cell(const guide::Step& step, const Trial& choice, Size cell, Length width,
                            Context& context) {
  std::vector<Op> ops;
  if (choice.estimate) return ops;
  const figure::Scene& scene = step.figure->scene;
  const Drawn& figure = drawn(scene, room_in(choice, width, context), choice.step_scale, context);
  if (scene.backdrop) {
    ops.emplace_back(Furniture{true});
    ops.emplace_back(DrawItem{Fill{rectangle({{}, cell}), context.figure_look.ground, 1.0}});
    ops.emplace_back(Furniture{false});
  }
  const Size size = figure.drawing->size;
  ops.emplace_back(Stand{{(cell.width - size.width) / 2, (cell.height - size.height) / 2},
                         figure_frame(figure, scene.alternative)});
  return ops;
}

// The photograph of a step, as wide as the words up to a limit.
FramePtr photograph(const guide::Step& step, Length width, const Context& context) {
  if (!step.picture || *step.picture < 0 ||
      static_cast<std::size_t>(*step.picture) >= context.input.pictures.size())
    return nullptr;
  const LayoutInput::PictureLook& look =
      context.input.pictures[static_cast<std::size_t>(*step.picture)];
  if (look.width_px <= 0 || look.height_px <= 0) return nullptr;
  Length wide = std::min(width, millimetres(70));
  Length high = wide * look.height_px / look.width_px;
  const Length tallest = context.text_height / 3;
  if (high > tallest) {
    wide = wide * tallest.nm / high.nm;
    high = tallest;
  }
  auto frame = std::make_shared<Frame>();
  frame->size = {width, on_grid(high, context.look.grid)};
  Node node = node_of("Figure");
  node.alternative = step.picture_words;
  node.box = {{}, {wide, high}};
  frame->ops = {OpenNode{std::move(node), true},
                DrawItem{Image{*step.picture, {{}, {wide, high}}, {}}}, CloseNode{}};
  return frame;
}

// Number, title and words of a step, `width` wide. Number and title share a baseline.
FramePtr words_of(const guide::Step& step, Length width, Context& context) {
  const TextStyle& number_style = context.look.style("step-number");
  const TextStyle& title_style = context.look.style("step-title");
  const TextStyle& text_style = context.look.style("step-text");
  const TextStyle& parts_style = context.look.style("step-parts");
  const Length indent = number_width(context);
  const Length inner = width - indent;
  auto frame = std::make_shared<Frame>();
  std::vector<Op>& ops = frame->ops;
  // The number is taller than the title: raised, so that the title's top is the figure's top.
  const Length raise = context.look.grid;
  Length y = std::max(number_style.leading - title_style.leading - raise, Length{});
  if (!step.number.empty()) {
    ops.emplace_back(OpenNode{node_of("Lbl"), false});
    ops.emplace_back(Stand{
        {{}, y + title_style.leading - number_style.leading},
        paragraph_frame(plain(step.number + " "), number_style, indent + points(7), context, "")});
    ops.emplace_back(CloseNode{});
  }
  ops.emplace_back(OpenNode{node_of("LBody"), false});
  const auto add = [&](const FramePtr& what) {
    ops.emplace_back(Stand{{indent, y}, what});
    y += what->size.height;
  };
  if (!step.title.empty()) add(paragraph_frame(plain(step.title), title_style, inner, context));
  if (!step.parts.empty()) add(paragraph_frame(step.parts, parts_style, inner, context));
  bool first = true;
  for (const guide::Inlines& paragraph : step.text) {
    if (!first) y += context.look.grid / 2;
    first = false;
    add(paragraph_frame(paragraph, text_style, inner, context));
  }
  y = on_grid(y, context.look.grid);
  for (const guide::Notice& notice : step.notices) {
    y += context.look.grid;
    add(stacked(notice_flow(notice, inner, context), inner));
  }
  if (const FramePtr photo = photograph(step, inner, context)) {
    y += context.look.grid;
    add(photo);
  }
  frame->size = {width, on_grid(y, context.look.grid)};
  return frame;
}

double area_share(Size part, Size whole) {
  if (whole.width.nm <= 0 || whole.height.nm <= 0) return 0.0;
  return static_cast<double>(part.width.nm) / static_cast<double>(whole.width.nm) *
         static_cast<double>(part.height.nm) / static_cast<double>(whole.height.nm);
}

void append_step_start(std::vector<Op>& ops, const guide::Step& step) {
  if (!step.anchor.empty()) ops.emplace_back(AnchorHere{step.anchor});
  ops.emplace_back(OpenNode{node_of("LI"), false});
}

// Figure at the left, words at its right, a hairline above. `figure_width` is common to all rows.
FlowItem row_of(const guide::Step& step, const Trial& choice, Length figure_width, Length width,
                Context& context) {
  const Length grid = context.look.grid;
  const Length top = grid * 2;
  const Length x = figure_width.nm > 0 ? figure_width + context.look.gutter : Length{};
  const FramePtr words = words_of(step, width - x, context);
  auto frame = std::make_shared<Frame>();
  std::vector<Op>& ops = frame->ops;
  ops.emplace_back(Furniture{true});
  ops.emplace_back(rule_at({}, grid, width, context.look.hairline, context.colour("rule")));
  ops.emplace_back(Furniture{false});
  append_step_start(ops, step);
  ops.emplace_back(Stand{{x, top}, words});
  Length high = words->size.height;
  double filled = 0.0;
  Size cell{};
  if (step.figure) {
    const Size size = figure_size(step, choice, width, context);
    cell = {figure_width, on_grid(size.height, grid)};
    high = std::max(high, cell.height);
    auto figure = std::make_shared<Frame>();
    figure->size = cell;
    figure->ops = figure_cell(step, choice, cell, width, context);
    ops.emplace_back(Stand{{{}, top}, std::move(figure)});
  }
  ops.emplace_back(CloseNode{}); // LBody
  ops.emplace_back(CloseNode{}); // LI
  frame->size = {width, on_grid(top + high + grid, grid)};
  filled = area_share(cell, frame->size) + area_share(words->size, frame->size);
  FlowItem item;
  item.filled = std::min(1.0, filled + area_share({width, top}, frame->size));
  item.frame = std::move(frame);
  item.stretch = grid * 3;
  return item;
}

// Two steps side by side, each with its words below its figure.
FlowItem pair_of(const guide::Step& left, const guide::Step& right, const Trial& choice,
                 Length width, Context& context) {
  const Length grid = context.look.grid;
  const Length cell_width = column_width(width, context);
  Length figures{};
  for (const guide::Step* step : {&left, &right})
    if (step->figure)
      figures = std::max(figures, figure_size(*step, choice, width, context).height);
  figures = on_grid(figures, grid);
  auto frame = std::make_shared<Frame>();
  std::vector<Op>& ops = frame->ops;
  Length tallest{};
  double filled = 0.0;
  Length x{};
  std::vector<Size> parts;
  for (const guide::Step* step : {&left, &right}) {
    const FramePtr words = words_of(*step, cell_width, context);
    const Length words_y = figures.nm > 0 ? figures + grid * 2 : Length{};
    append_step_start(ops, *step);
    ops.emplace_back(Stand{{x, words_y}, words});
    if (step->figure) {
      const Size cell{cell_width, figures};
      auto figure = std::make_shared<Frame>();
      figure->size = cell;
      figure->ops = figure_cell(*step, choice, cell, width, context);
      ops.emplace_back(Stand{{x, {}}, std::move(figure)});
      // A wide ground around a small drawing holds little.
      const Size size = figure_size(*step, choice, width, context);
      parts.push_back({(size.width + cell_width) / 2, figures});
    }
    parts.push_back({cell_width, words->size.height});
    ops.emplace_back(CloseNode{}); // LBody
    ops.emplace_back(CloseNode{}); // LI
    tallest = std::max(tallest, words_y + words->size.height);
    x = cell_width + context.look.gutter;
  }
  frame->size = {width, on_grid(tallest, grid)};
  for (const Size part : parts) filled += area_share(part, frame->size);
  FlowItem item;
  item.space_before = grid * 3;
  item.filled = std::min(1.0, filled * 1.03);
  item.frame = std::move(frame);
  item.stretch = grid * 4;
  return item;
}

} // namespace

std::vector<Trial> step_trials(const guide::Steps& steps, Length width, Context& context) {
  std::vector<Trial> choices;
  const StepRule& rule = context.look.steps;
  for (const bool columns : {false, true}) {
    if (columns ? !rule.columns || steps.steps.size() < 2 : !rule.rows) continue;
    Trial choice;
    choice.columns = columns;
    choice.estimate = true;
    double largest = 0.0;
    Length tallest{};
    for (const guide::Step& step : steps.steps) {
      if (!step.figure) continue;
      const double fits = context.figures.fitting(
          step.figure->scene, room_in(choice, width, context), context.figure_look, context.fonts);
      largest = largest == 0.0 ? fits : std::min(largest, fits);
    }
    if (largest == 0.0) {
      choices.push_back(choice);
      continue;
    }
    for (double share = 1.0; share > 0.3; share *= 0.93) {
      choice.step_scale =
          largest >= 1.0 ? largest * share : std::floor(largest * share * 100.0) / 100.0;
      if (choice.step_scale <= 0.02) break;
      tallest = {};
      for (const guide::Step& step : steps.steps)
        if (step.figure)
          tallest = std::max(tallest, figure_size(step, choice, width, context).height);
      if (share < 1.0 && tallest < rule.smallest_figure) break;
      choices.push_back(choice);
    }
  }
  if (choices.empty()) choices.emplace_back();
  return choices;
}

Flow steps_flow(const guide::Steps& steps, Length width, Context& context) {
  const Trial& choice = context.trial;
  Length figure_width{};
  for (const guide::Step& step : steps.steps)
    if (step.figure)
      figure_width = std::max(figure_width, figure_size(step, choice, width, context).width);
  if (figure_width.nm > 0 && !choice.columns)
    figure_width = std::min(on_grid(figure_width + context.look.grid * 2, context.look.grid),
                            times(width, context.look.steps.figure_share));
  Flow flow;
  const std::size_t count = steps.steps.size();
  for (std::size_t i = 0; i < count;) {
    if (choice.columns && i + 1 < count) {
      flow.push_back(pair_of(steps.steps[i], steps.steps[i + 1], choice, width, context));
      i += 2;
      continue;
    }
    // An odd step at the end of two columns: its words where the next figure would be.
    const Length figure = choice.columns ? column_width(width, context) : figure_width;
    FlowItem item = row_of(steps.steps[i], choice, figure, width, context);
    if (choice.columns) item.space_before = context.look.grid;
    flow.push_back(std::move(item));
    ++i;
  }
  Node node = node_of("L");
  node.list_numbering = "Decimal";
  enclose(flow, {OpenNode{std::move(node), false}}, {CloseNode{}});
  return flow;
}

} // namespace leafwright::page
