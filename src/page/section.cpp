#include "page/section.h"

#include "page/blocks.h"
#include "page/figures.h"
#include "page/steps.h"

#include <algorithm>
#include <limits>

namespace leafwright::page {

namespace {

// What stands before and after the first steps of the section; more than one run of steps in a
// section is set the same way.
const guide::Steps* first_steps(std::span<const guide::Block> blocks) {
  for (const guide::Block& block : blocks)
    if (const auto* steps = std::get_if<guide::Steps>(&block.what)) return steps;
  return nullptr;
}

bool has_shrinkable(std::span<const guide::Block> blocks) {
  return std::ranges::any_of(blocks, [](const guide::Block& block) {
    return std::holds_alternative<guide::Beside>(block.what) ||
           std::holds_alternative<guide::Figure>(block.what) ||
           std::holds_alternative<guide::FigureRow>(block.what);
  });
}

} // namespace

double layout_cost(const Flow& flow, Length height) {
  const Pagination pages = paginate(flow, height);
  double cost = 0.0;
  for (std::size_t p = 0; p < pages.slices.size(); ++p) {
    const PageSlice& slice = pages.slices[p];
    double content = 0.0;
    for (std::size_t i = slice.first; i < slice.end; ++i)
      content += flow[i].filled * static_cast<double>(flow[i].frame->size.height.nm) +
                 (i > slice.first ? static_cast<double>(flow[i].space_before.nm) : 0.0);
    const double empty = std::max(0.0, 1.0 - content / static_cast<double>(height.nm));
    const bool last = p + 1 == pages.slices.size();
    cost += 25.0 + (last ? 60.0 : 100.0) * empty * empty;
    if (slice.overfull) cost += 1000.0;
    if (last) continue;
    const FlowItem& end = flow[slice.end - 1];
    cost += end.break_cost + (end.keep_with_next ? 300.0 : 0.0);
  }
  return cost;
}

Flow section_flow(std::span<const guide::Block> blocks, Length width, Length height,
                  Context& context) {
  const guide::Steps* steps = first_steps(blocks);
  const bool shrinkable = has_shrinkable(blocks);
  context.trial = {};
  if (steps == nullptr && !shrinkable) return blocks_flow(blocks, width, context);

  const std::vector<Trial> ways =
      steps != nullptr ? step_trials(*steps, context) : std::vector<Trial>(1);
  Length largest{};
  for (const Trial& way : ways) largest = std::max(largest, way.figure_height);
  // A sheet's diagram is read with a ruler in hand: it hardly gives way.
  const bool diagrams = std::ranges::any_of(blocks, [](const guide::Block& block) {
    const auto* beside = std::get_if<guide::Beside>(&block.what);
    return beside != nullptr && is_sheet(beside->figure.scene);
  });
  std::vector<double> shrinks{1.0};
  if (diagrams)
    shrinks.insert(shrinks.end(), {0.94, 0.88, 0.82});
  else if (shrinkable)
    shrinks.insert(shrinks.end(), {0.93, 0.86, 0.79, 0.72, 0.6});

  // What is not a step is set once for each shrink, and then stands between the steps of every way.
  struct Part {
    Flow flow;
    const guide::Steps* steps = nullptr;
  };
  const auto parts_of = [&](double shrink, bool estimate) {
    context.trial = {};
    context.trial.shrink = shrink;
    context.trial.estimate = estimate;
    std::vector<Part> parts;
    for (std::size_t from = 0; from < blocks.size();) {
      std::size_t end = from + 1;
      Part part;
      if (const auto* here = std::get_if<guide::Steps>(&blocks[from].what)) {
        part.steps = here;
      } else {
        while (end < blocks.size() && !std::holds_alternative<guide::Steps>(blocks[end].what))
          ++end;
        part.flow = blocks_flow(blocks.subspan(from, end - from), width, context);
        if (!part.flow.empty() && from > 0)
          part.flow.front().space_before =
              std::max(part.flow.front().space_before, context.look.grid * 3);
      }
      parts.push_back(std::move(part));
      from = end;
    }
    return parts;
  };
  const auto assembled = [&](const std::vector<Part>& parts, const Trial& trial) {
    context.trial = trial;
    Flow flow;
    for (const Part& part : parts) {
      Flow piece = part.steps != nullptr ? steps_flow(*part.steps, width, context) : part.flow;
      if (!flow.empty() && !piece.empty() && part.steps != nullptr)
        piece.front().space_before = std::max(piece.front().space_before, context.look.grid);
      std::move(piece.begin(), piece.end(), std::back_inserter(flow));
    }
    return flow;
  };
  const double shrink_price = diagrams ? 220.0 : 70.0;
  Trial best = ways.front();
  double best_cost = std::numeric_limits<double>::infinity();
  for (const double shrink : shrinks) {
    const std::vector<Part> parts = parts_of(shrink, true);
    for (Trial way : ways) {
      way.shrink = shrink;
      way.estimate = true;
      const double loss = largest.nm > 0 ? 1.0 - static_cast<double>(way.figure_height.nm) /
                                                     static_cast<double>(largest.nm)
                                         : 0.0;
      const double shrink_loss = 1.0 - shrink;
      const double cost = layout_cost(assembled(parts, way), height) + 80.0 * loss * loss +
                          shrink_price * shrink_loss * shrink_loss;
      if (cost < best_cost) {
        best_cost = cost;
        best = way;
      }
    }
  }
  best.estimate = false;
  Flow flow = assembled(parts_of(best.shrink, false), best);
  context.trial = {};
  return flow;
}

} // namespace leafwright::page
