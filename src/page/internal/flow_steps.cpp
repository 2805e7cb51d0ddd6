#include "measure/index.h"
#include "page/context.h"
#include "page/internal/block_flows.h"
#include "page/internal/blocks.h"
#include "page/internal/furniture.h"
#include "page/internal/paginate.h"
#include "page/internal/paragraph.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <span>
#include <string_view>

namespace leafwright::page {

namespace {

double area_of(Size size) {
  return static_cast<double>(size.width.nm) * static_cast<double>(size.height.nm);
}

double area_share(Size part, Size whole) {
  return whole.width.nm > 0 && whole.height.nm > 0 ? area_of(part) / area_of(whole) : 0.0;
}

// Sets the steps of one run in the way of one trial.
class Setter {
 public:
  Setter(std::span<const guide::Step> steps, const Trial& trial, Length width, Context& context)
      : steps_(steps), trial_(trial), width_(width), context_(context), grid_(context.look.grid) {
    find_scales();
    for (const Size size : sizes_) widest_ = std::max(widest_, size.width);
  }

  // How much of the size that half the width would allow the figures lose, from 0 to 1.
  double loss() {
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

  // Whether a label of some figure finds no place; draws them, unlike all else here.
  bool is_crowded() {
    for (std::size_t i = 0; i < steps_.size(); ++i)
      if (steps_[i].figure &&
          context_.figures.composed(steps_[i].figure->scene, drawing_room(i), scales_[i]).crowded)
        return true;
    return false;
  }

  Flow flow() {
    // A figure column in twelfths of the width, so that few widths of text are ever tried.
    const Length twelfth = width_ / 12;
    Length column = column_width();
    if (trial_.columns == 1)
      column =
          widest_.nm > 0 ? std::min(on_grid(widest_ + grid_ * 2, twelfth), room_.width) : Length{};
    Flow flow;
    const std::size_t abreast = as_index(trial_.columns);
    for (std::size_t i = 0; i < steps_.size(); i += abreast) {
      const std::size_t end = std::min(i + abreast, steps_.size());
      // An odd step at the end of the columns: its words where the next figure would be.
      flow.push_back(end - i > 1 ? side_by_side(i, end, column) : row(i, column));
    }
    return flow;
  }

 private:
  Length column_width() const {
    return (width_ - context_.look.gutter * (trial_.columns - 1)) / trial_.columns;
  }

  // Figures of one group (the card from outside, the open card, the flat base) are drawn at one
  // scale: the largest at which none is taller than the trial says.
  void find_scales() {
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

  // A drawing may turn out a little larger than was expected: the ground around it gives way.
  Size drawing_room(std::size_t i) const {
    return {std::max(room_.width, sizes_[i].width), cell_height(i)};
  }

  // A drawing that brings no ground of its own needs air around it on this one.
  Length cell_height(std::size_t i) const {
    if (!steps_[i].figure) return {};
    const bool own_ground = steps_[i].figure->scene.backdrop;
    return on_grid(sizes_[i].height + (own_ground ? Length{} : grid_ * 2), grid_);
  }

  // The figure on its ground: a cell of `cell`, the drawing centred in it.
  FramePtr figure_cell(std::size_t i, Size cell) {
    auto frame = std::make_shared<Frame>();
    frame->size = cell;
    if (trial_.estimate) return frame;
    const figure::Scene& scene = steps_[i].figure->scene;
    // Every step has its ground, so that the cells make a grid whatever is drawn in them.
    frame->ops.emplace_back(Furniture{true});
    frame->ops.emplace_back(
        DrawItem{Fill{rectangle({{}, cell}), context_.figure_look.ground, 1.0}});
    frame->ops.emplace_back(Furniture{false});
    const Drawn& made = drawn(scene, drawing_room(i), scales_[i], context_);
    const Size size = made.drawing->size;
    frame->ops.emplace_back(Inset{{(cell.width - size.width) / 2, (cell.height - size.height) / 2},
                                  figure_frame(made, scene.alternative)});
    return frame;
  }

  void begin_step(Frame& into, const guide::Step& step) {
    if (!step.anchor.empty()) into.ops.emplace_back(AnchorHere{step.anchor, step.title});
    into.ops.emplace_back(OpenNode{node_of("LI"), false});
  }

  // Figure at the left, words at its right, a hairline above.
  FlowItem row(std::size_t i, Length column) {
    const guide::Step& step = steps_[i];
    const Length top = grid_ * 2;
    const Length x = column.nm > 0 ? column + context_.look.gutter : Length{};
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
    frame->size = {width_, on_grid(top + high + grid_, grid_)};
    FlowItem item;
    item.space_before = trial_.columns > 1 ? grid_ : Length{};
    item.stretch = grid_ * 3;
    const Size whole = frame->size;
    item.filled =
        std::min(1.0, area_share({(sizes_[i].width + column) / 2, sizes_[i].height}, whole) +
                          area_share(words->size, whole) + area_share({width_, top}, whole));
    item.frame = std::move(frame);
    return item;
  }

  // As wide as what is drawn and a little ground around it.
  Length cell_width(std::size_t i, Length column) const {
    return std::min(column, std::max(on_grid(sizes_[i].width + grid_ * 4, grid_), column / 2));
  }

  // Steps side by side, each with its words below its figure.
  FlowItem side_by_side(std::size_t first, std::size_t end, Length column) {
    Length figures{};
    for (std::size_t i = first; i < end; ++i) figures = std::max(figures, cell_height(i));
    auto frame = std::make_shared<Frame>();
    const Length words_y = figures.nm > 0 ? figures + grid_ * 2 : Length{};
    Length tallest{};
    Length x{};
    double filled = 0.0;
    for (std::size_t i = first; i < end; ++i) {
      const FramePtr words = step_words(steps_[i], column, context_);
      begin_step(*frame, steps_[i]);
      frame->ops.emplace_back(Inset{{x, words_y}, words});
      if (steps_[i].figure) {
        const Size cell{cell_width(i, column), figures};
        frame->ops.emplace_back(Inset{{x, {}}, figure_cell(i, cell)});
        // A wide ground around a small drawing holds little.
        filled += area_of({(sizes_[i].width + cell.width) / 2, (sizes_[i].height + figures) / 2});
      }
      filled += area_of({column, words->size.height});
      frame->ops.emplace_back(CloseNode{}); // LBody
      frame->ops.emplace_back(CloseNode{}); // LI
      tallest = std::max(tallest, words_y + words->size.height);
      if (steps_[i].changed)
        add_change_bar(frame->ops, {x, {}}, words_y + words->size.height, context_);
      x += column + context_.look.gutter;
    }
    frame->size = {width_, on_grid(tallest, grid_)};
    FlowItem item;
    item.space_before = first == 0 ? grid_ : grid_ * 3;
    item.stretch = grid_ * 4;
    constexpr double gutter = 0.04;
    item.filled = std::min(1.0, gutter + filled / area_of(frame->size));
    item.frame = std::move(frame);
    return item;
  }

  std::span<const guide::Step> steps_;
  Trial trial_;
  Length width_;
  Context& context_;
  Length grid_;
  Size room_;
  std::vector<double> scales_; // of each step's figure
  std::vector<Size> sizes_;
  Length widest_{};
};

// Pages narrower than this have no room for three figures with their measures.
constexpr Length widest_of_two = millimetres(165);

std::vector<Trial> step_trials(Length width, const Context& context) {
  const StepRule& rule = context.look.steps;
  std::vector<Trial> trials;
  for (const int columns : {2, 3, 1}) {
    if (columns > 1 ? !rule.columns : !rule.rows) continue;
    if (columns == 3 && width < widest_of_two) continue;
    Trial trial;
    trial.columns = columns;
    trial.estimate = true;
    constexpr int steps_down = 5;
    for (int k = 0; k <= steps_down; ++k) {
      trial.figure_height =
          rule.largest_figure - (rule.largest_figure - rule.smallest_figure) * k / steps_down;
      trials.push_back(trial);
    }
  }
  if (trials.empty()) trials.emplace_back();
  return trials;
}

constexpr std::int64_t grain = 1;

// One page of steps: how it is set, and what that costs beside others.
struct StepPage {
  Trial way;
  double price = std::numeric_limits<double>::infinity();
  Length used;
};

// The prices, against each other: a page is dearer than ragged fill, small figures are dearer than
// either where they lose half of their size. No step is ever parted from its figure.
constexpr double one_page = 60.0;
constexpr double too_tall = 1e5;
constexpr double three_abreast = 12.0; // short lines

StepPage best_page(std::span<const guide::Step> steps, std::span<const Trial> ways, Length room,
                   bool last, Length width, Context& context) {
  StepPage best;
  for (const Trial& way : ways) {
    Setter setter(steps, way, width, context);
    const Length used = height(setter.flow());
    const bool over = used > room;
    if (over && steps.size() > 1) continue;
    const double empty = std::max(0.0, 1.0 - static_cast<double>(used.nm) /
                                                 static_cast<double>(std::max(room.nm, grain)));
    const double loss = setter.loss();
    double price = one_page + 90.0 * loss + 200.0 * loss * loss;
    price += last ? 8.0 * empty * empty : 60.0 * empty * empty + (empty > 0.4 ? 120.0 : 0.0);
    price += way.columns == 1 ? 6.0 : way.columns == 3 ? three_abreast : 0.0;
    if (over) price += too_tall;
    if (price >= best.price || (way.columns == 3 && setter.is_crowded())) continue;
    best = {way, price, used};
  }
  return best;
}

} // namespace

Flow steps_flow(const guide::Steps& steps, const StepRooms& rooms, Length width, Context& context) {
  const std::span<const guide::Step> all = steps.steps;
  const std::vector<Trial> ways = step_trials(width, context);
  const auto page = [&](std::size_t first, std::size_t end) {
    const Length room = first == 0 ? rooms.first : rooms.page;
    return best_page(all.subspan(first, end - first), ways, room, end == all.size(), width,
                     context);
  };
  const Runs runs = cheapest_runs(
      all.size(), [&](std::size_t first, std::size_t end) { return page(first, end).price; });
  Flow flow;
  std::size_t first = 0;
  for (const std::size_t end : runs.ends) {
    const StepPage best = page(first, end);
    Trial way = best.way;
    way.estimate = context.trial.estimate;
    Flow part = Setter(all.subspan(first, end - first), way, width, context).flow();
    const Length room = first == 0 ? rooms.first : rooms.page;
    if (end < all.size()) {
      // What a page leaves over is shared out between its rows.
      const auto gaps = static_cast<std::int64_t>(part.size()) - 1;
      const Length left = room - best.used;
      const Length grid = context.look.grid;
      if (gaps > 0 && left.nm > 0) {
        const Length each = std::min(Length{left.nm / gaps / grid.nm * grid.nm}, grid * 4);
        for (std::size_t i = 1; i < part.size(); ++i) part[i].space_before += each;
      }
      part.back().break_after = true;
    }
    std::move(part.begin(), part.end(), std::back_inserter(flow));
    first = end;
  }
  Node node = node_of("L");
  node.list_numbering = "Decimal";
  enclose(flow, {OpenNode{std::move(node), false}}, {CloseNode{}});
  return flow;
}

Flow steps_flow(const guide::Steps& steps, Length width, Context& context) {
  return steps_flow(steps, {context.text_height, context.text_height}, width, context);
}

} // namespace leafwright::page
