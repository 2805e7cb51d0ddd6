#include "page/section.h"

#include "page/blocks.h"
#include "page/steps.h"

#include <algorithm>
#include <limits>

namespace leafwright::page {

namespace {

// What stands before and after the first steps of the section; more than one run of steps in a
// section is set the same way.
const guide::Steps* first_steps(const guide::Section& section) {
  for (const guide::Block& block : section.blocks)
    if (const auto* steps = std::get_if<guide::Steps>(&block.what)) return steps;
  return nullptr;
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
    cost += 25.0 + (last ? 45.0 : 100.0) * empty * empty;
    if (slice.overfull) cost += 1000.0;
  }
  return cost;
}

Flow section_flow(const guide::Section& section, Length width, Length height, Context& context) {
  const guide::Steps* steps = first_steps(section);
  if (steps == nullptr) return blocks_flow(section.blocks, width, context);

  // Everything but the steps is the same in every trial, so it is made once.
  const std::vector<StepChoice> choices = step_choices(*steps, width, context);
  struct Part {
    Flow flow;
    const guide::Steps* steps = nullptr;
    Length space_before;
  };
  double largest = 0.0;
  for (const StepChoice& choice : choices) largest = std::max(largest, choice.scale);

  const auto is_steps = [](const guide::Block& block) {
    return std::holds_alternative<guide::Steps>(block.what);
  };
  std::vector<Part> parts;
  const std::span<const guide::Block> blocks = section.blocks;
  std::size_t from = 0;
  while (from < blocks.size()) {
    std::size_t end = from;
    Part part;
    if (is_steps(blocks[from])) {
      part.steps = &std::get<guide::Steps>(blocks[from].what);
      end = from + 1;
    } else {
      while (end < blocks.size() && !is_steps(blocks[end])) ++end;
      part.flow = blocks_flow(blocks.subspan(from, end - from), width, context);
      if (!part.flow.empty() && from > 0)
        part.flow.front().space_before =
            std::max(part.flow.front().space_before, context.look.grid * 3);
    }
    parts.push_back(std::move(part));
    from = end;
  }
  const auto assembled = [&](const StepChoice& choice) {
    context.steps = choice;
    Flow flow;
    for (const Part& part : parts) {
      Flow piece = part.steps != nullptr ? steps_flow(*part.steps, width, context) : part.flow;
      if (!flow.empty() && !piece.empty() && part.steps != nullptr)
        piece.front().space_before = std::max(piece.front().space_before, context.look.grid);
      std::move(piece.begin(), piece.end(), std::back_inserter(flow));
    }
    return flow;
  };
  StepChoice best = choices.front();
  double best_cost = std::numeric_limits<double>::infinity();
  for (const StepChoice& choice : choices) {
    const double loss = largest > 0.0 ? 1.0 - choice.scale / largest : 0.0;
    const double cost = layout_cost(assembled(choice), height) + 45.0 * loss * loss;
    if (cost < best_cost) {
      best_cost = cost;
      best = choice;
    }
  }
  best.estimate = false;
  return assembled(best);
}

} // namespace leafwright::page
