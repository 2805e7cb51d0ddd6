#include "page/internal/step_setter.h"

#include "measure/index.h"
#include "page/internal/blocks.h"
#include "page/internal/furniture.h"
#include "page/internal/paragraph.h"

#include <algorithm>
#include <map>
#include <memory>
#include <string_view>

namespace leafwright::page {

namespace {

double area_of(Size size) {
  return static_cast<double>(size.width.nm) * static_cast<double>(size.height.nm);
}

double area_share(Size part, Size whole) {
  return whole.width.nm > 0 && whole.height.nm > 0 ? area_of(part) / area_of(whole) : 0.0;
}

} // namespace

StepSetter::StepSetter(std::span<const guide::Step> steps, const Trial& trial, Length width,
                       Context& context)
    : steps_(steps), trial_(trial), width_(width), context_(context), grid_(context.look.grid) {
  find_scales();
  for (const Size size : sizes_) widest_ = std::max(widest_, size.width);
}

double StepSetter::loss() {
  const Size most{(width_ - context_.look.gutter) / 2, context_.look.steps.largest_figure};
  double sum = 0.0;
  double count = 0.0;
  for (std::size_t i = 0; i < steps_.size(); ++i) {
    if (!steps_[i].figure) continue;
    const double largest = context_.figures.fitting(steps_[i].figure->scene, most);
    sum += std::max(0.0, 1.0 - scales_[i] / largest);
    count += 1.0;
  }
  return count > 0.0 ? sum / count : 0.0;
}

bool StepSetter::is_crowded() {
  for (std::size_t i = 0; i < steps_.size(); ++i)
    if (steps_[i].figure &&
        context_.figures.composed(steps_[i].figure->scene, drawing_room(i), scales_[i]).crowded)
      return true;
  return false;
}

Flow StepSetter::flow() {
  const Length column = figure_column();
  Flow flow;
  const std::size_t abreast = as_index(trial_.columns);
  for (std::size_t i = 0; i < steps_.size(); i += abreast) {
    const std::size_t end = std::min(i + abreast, steps_.size());
    // An odd step at the end of the columns: its words where the next figure would be.
    flow.push_back(end - i > 1 ? side_by_side(i, end, column) : row(i, column));
  }
  return flow;
}

Length StepSetter::used() {
  const Length column = figure_column();
  Length total{};
  const std::size_t abreast = as_index(trial_.columns);
  for (std::size_t i = 0; i < steps_.size(); i += abreast) {
    const std::size_t end = std::min(i + abreast, steps_.size());
    if (i > 0) total += gap_above(i, end);
    total += end - i > 1 ? height_side_by_side(i, end, column) : row_height(i, column);
  }
  return total;
}

Length StepSetter::figure_column() const {
  if (trial_.columns > 1) return column_width();
  if (widest_.nm <= 0) return {};
  // In twelfths of the width, so that few widths of text are ever tried.
  return std::min(on_grid(widest_ + grid_ * 2, width_ / 12), room_.width);
}

Length StepSetter::gap_above(std::size_t first, std::size_t end) const {
  if (end - first > 1) return first == 0 ? grid_ : grid_ * 3;
  return trial_.columns > 1 ? grid_ : Length{};
}

Length StepSetter::column_width() const {
  return (width_ - context_.look.gutter * (trial_.columns - 1)) / trial_.columns;
}

void StepSetter::find_scales() {
  room_ = {trial_.columns > 1 ? column_width() : times(width_, context_.look.steps.figure_share),
           trial_.figure_height};
  std::map<std::string_view, double> groups;
  const auto fits = [&](const guide::Step& step) {
    return context_.figures.fitting(step.figure->scene, room_);
  };
  for (const guide::Step& step : steps_) {
    if (!step.figure) continue;
    const auto [group, fresh] = groups.emplace(step.figure->scene.scale_group, fits(step));
    if (!fresh) group->second = std::min(group->second, fits(step));
  }
  for (const guide::Step& step : steps_) {
    double scale = step.figure ? groups[step.figure->scene.scale_group] : 0.0;
    // A small thing among large ones would be lost at their scale.
    if (step.figure && scale < fits(step) * 0.55) scale = fits(step);
    scales_.push_back(scale);
    // As expected, so that what was weighed is what is set; the drawing keeps within it.
    sizes_.push_back(step.figure ? context_.figures.expected_size(step.figure->scene, scale)
                                 : Size{});
  }
}

Size StepSetter::drawing_room(std::size_t i) const {
  return {std::max(room_.width, sizes_[i].width), cell_height(i)};
}

Length StepSetter::cell_height(std::size_t i) const {
  if (!steps_[i].figure) return {};
  const bool own_ground = steps_[i].figure->scene.backdrop;
  return on_grid(sizes_[i].height + (own_ground ? Length{} : grid_ * 2), grid_);
}

FramePtr StepSetter::figure_cell(std::size_t i, Size cell) {
  auto frame = std::make_shared<Frame>();
  frame->size = cell;
  if (trial_.estimate) return frame;
  const figure::Scene& scene = steps_[i].figure->scene;
  // Every step has its ground, so that the cells make a grid whatever is drawn in them.
  frame->ops.emplace_back(Furniture{true});
  frame->ops.emplace_back(DrawItem{Fill{rectangle({{}, cell}), context_.figure_look.ground, 1.0}});
  frame->ops.emplace_back(Furniture{false});
  const Drawn& made = drawn(scene, drawing_room(i), scales_[i], context_);
  const Size size = made.drawing->size;
  frame->ops.emplace_back(Inset{{(cell.width - size.width) / 2, (cell.height - size.height) / 2},
                                figure_frame(made, scene.alternative)});
  return frame;
}

void StepSetter::begin_step(Frame& into, const guide::Step& step) {
  if (!step.anchor.empty()) into.ops.emplace_back(AnchorHere{step.anchor, step.title});
  into.ops.emplace_back(OpenNode{node_of("LI"), false});
}

Length StepSetter::words_x(Length column) const {
  return column.nm > 0 ? column + context_.look.gutter : Length{};
}

Length StepSetter::row_height(std::size_t i, Length column) {
  const Length words = step_words(steps_[i], width_ - words_x(column), context_)->size.height;
  return on_grid(grid_ * 2 + std::max(words, cell_height(i)) + grid_, grid_);
}

Length StepSetter::tallest_figure(std::size_t first, std::size_t end) const {
  Length tallest{};
  for (std::size_t i = first; i < end; ++i) tallest = std::max(tallest, cell_height(i));
  return tallest;
}

Length StepSetter::words_y(std::size_t first, std::size_t end) const {
  const Length figures = tallest_figure(first, end);
  return figures.nm > 0 ? figures + grid_ * 2 : Length{};
}

Length StepSetter::height_side_by_side(std::size_t first, std::size_t end, Length column) {
  Length words{};
  for (std::size_t i = first; i < end; ++i)
    words = std::max(words, step_words(steps_[i], column, context_)->size.height);
  return on_grid(words_y(first, end) + words, grid_);
}

FlowItem StepSetter::row(std::size_t i, Length column) {
  const guide::Step& step = steps_[i];
  const Length top = grid_ * 2;
  const Length x = words_x(column);
  const FramePtr words = step_words(step, width_ - x, context_);
  auto frame = std::make_shared<Frame>();
  std::vector<Op>& ops = frame->ops;
  ops.emplace_back(Furniture{true});
  ops.emplace_back(rule_at({}, grid_, width_, context_.look.hairline, context_.colour("rule")));
  ops.emplace_back(Furniture{false});
  begin_step(*frame, step);
  ops.emplace_back(Inset{{x, top}, words});
  Length high = words->size.height;
  if (step.figure) {
    const Size cell{column, cell_height(i)};
    high = std::max(high, cell.height);
    ops.emplace_back(Inset{{{}, top}, figure_cell(i, cell)});
  }
  ops.emplace_back(CloseNode{}); // LBody
  ops.emplace_back(CloseNode{}); // LI
  if (step.changed) add_change_bar(ops, {{}, top}, high, context_);
  frame->size = {width_, row_height(i, column)};
  FlowItem item;
  item.space_before = gap_above(i, i + 1);
  item.stretch = grid_ * 3;
  const Size whole = frame->size;
  item.filled =
      std::min(1.0, area_share({(sizes_[i].width + column) / 2, sizes_[i].height}, whole) +
                        area_share(words->size, whole) + area_share({width_, top}, whole));
  item.frame = std::move(frame);
  return item;
}

Length StepSetter::cell_width(std::size_t i, Length column) const {
  return std::min(column, std::max(on_grid(sizes_[i].width + grid_ * 4, grid_), column / 2));
}

FlowItem StepSetter::side_by_side(std::size_t first, std::size_t end, Length column) {
  const Length figures = tallest_figure(first, end);
  const Length below = words_y(first, end);
  auto frame = std::make_shared<Frame>();
  Length x{};
  double filled = 0.0;
  for (std::size_t i = first; i < end; ++i) {
    const FramePtr words = step_words(steps_[i], column, context_);
    begin_step(*frame, steps_[i]);
    frame->ops.emplace_back(Inset{{x, below}, words});
    if (steps_[i].figure) {
      const Size cell{cell_width(i, column), figures};
      frame->ops.emplace_back(Inset{{x, {}}, figure_cell(i, cell)});
      // A wide ground around a small drawing holds little.
      filled += area_of({(sizes_[i].width + cell.width) / 2, (sizes_[i].height + figures) / 2});
    }
    filled += area_of({column, words->size.height});
    frame->ops.emplace_back(CloseNode{}); // LBody
    frame->ops.emplace_back(CloseNode{}); // LI
    if (steps_[i].changed)
      add_change_bar(frame->ops, {x, {}}, below + words->size.height, context_);
    x += column + context_.look.gutter;
  }
  frame->size = {width_, height_side_by_side(first, end, column)};
  FlowItem item;
  item.space_before = gap_above(first, end);
  item.stretch = grid_ * 4;
  constexpr double gutter = 0.04;
  item.filled = std::min(1.0, gutter + filled / area_of(frame->size));
  item.frame = std::move(frame);
  return item;
}

} // namespace leafwright::page
