#include "page/internal/block_flows.h"

#include "page/context.h"
#include "page/internal/blocks.h"

#include <algorithm>
#include <limits>
#include <numeric>

namespace leafwright::page {

namespace {

bool has_steps(std::span<const guide::Block> blocks) {
  return std::ranges::any_of(blocks, [](const guide::Block& block) {
    return std::holds_alternative<guide::Steps>(block.what);
  });
}

bool has_shrinkable(std::span<const guide::Block> blocks) {
  return std::ranges::any_of(blocks, [](const guide::Block& block) {
    return !std::holds_alternative<guide::Steps>(block.what) && depends_on_trial(block);
  });
}

} // namespace

double layout_cost(const Flow& flow, Heights heights) {
  const Pagination pages = paginate(flow, heights);
  double cost = 0.0;
  for (std::size_t p = 0; p < pages.slices.size(); ++p) {
    const PageSlice& slice = pages.slices[p];
    double content = 0.0;
    for (std::size_t i = slice.first; i < slice.end; ++i)
      content += flow[i].filled * static_cast<double>(flow[i].frame->size.height.nm) +
                 (i > slice.first ? static_cast<double>(flow[i].space_before.nm) : 0.0);
    const double empty = std::max(0.0, 1.0 - content / static_cast<double>(heights.of(p).nm));
    const bool last = p + 1 == pages.slices.size();
    cost += (25.0 + (last ? 60.0 : 100.0) * empty * empty) / static_cast<double>(heights.columns);
    if (slice.overfull) cost += 1000.0;
    if (last) cost += 12.0 * heights.columns_left(p);
    if (last) continue;
    const FlowItem& end = flow[slice.end - 1];
    cost += end.break_cost + (end.keep_with_next ? 300.0 : 0.0);
    if (heights.ends_page(p)) cost += end.page_break_cost;
  }
  return cost;
}

namespace {

// Sets the blocks of a section: what is not a step once for each shrink, which then stands between
// the steps of every way.
class SectionSetter {
 public:
  SectionSetter(std::span<const guide::Block> blocks, Length width, Length height, Context& context)
      : blocks_(blocks), width_(width), height_(height), context_(context) {}

  Flow set(const Trial& trial) {
    const std::vector<Part> parts = parts_of(trial);
    context_.trial = trial;
    Flow flow;
    for (const Part& part : parts) {
      Flow piece = part.steps != nullptr
                       ? steps_flow(*part.steps, rooms_after(flow), width_, context_)
                       : part.flow;
      if (!flow.empty() && !piece.empty() && part.steps != nullptr)
        piece.front().space_before = std::max(piece.front().space_before, context_.look.grid);
      std::move(piece.begin(), piece.end(), std::back_inserter(flow));
    }
    return flow;
  }

 private:
  struct Part {
    Flow flow;
    const guide::Steps* steps = nullptr;
  };

  std::vector<Part> parts_of(const Trial& trial) {
    context_.trial = {};
    context_.trial.shrink = trial.shrink;
    context_.trial.estimate = trial.estimate;
    std::vector<Part> parts;
    for (std::size_t from = 0; from < blocks_.size();) {
      std::size_t end = from + 1;
      Part part;
      if (const auto* here = std::get_if<guide::Steps>(&blocks_[from].what)) {
        part.steps = here;
      } else {
        while (end < blocks_.size() && !std::holds_alternative<guide::Steps>(blocks_[end].what))
          ++end;
        part.flow = blocks_flow(blocks_.subspan(from, end - from), width_, context_);
        if (!part.flow.empty() && from > 0)
          part.flow.front().space_before =
              std::max(part.flow.front().space_before, context_.look.grid * 3);
      }
      parts.push_back(std::move(part));
      from = end;
    }
    return parts;
  }

  // What the page has left on which the steps begin; where that is little, they begin the next.
  StepRooms rooms_after(const Flow& flow) const {
    const Length gap = context_.look.grid * 3;
    if (flow.empty() || flow.back().break_after) return {height_, height_};
    const Length used = paginate(flow, height_).slices.back().used + gap;
    Length kept{};
    for (std::size_t i = flow.size(); i > 0 && flow[i - 1].keep_with_next; --i)
      kept += flow[i - 1].frame->size.height + flow[i - 1].space_before;
    if (height_ - used > height_ / 3) return {height_ - used, height_};
    return {height_ - kept - gap, height_};
  }

  std::span<const guide::Block> blocks_;
  Length width_, height_;
  Context& context_;
};

} // namespace

Flow section_flow(std::span<const guide::Block> blocks, Length width, Heights heights,
                  Context& context, const Flow& below) {
  const bool shrinkable = has_shrinkable(blocks);
  context.trial = {};
  if (!has_steps(blocks) && !shrinkable) return blocks_flow(blocks, width, context);
  // A sheet's diagram is read with a ruler in hand: it hardly gives way.
  const bool diagrams = std::ranges::any_of(blocks, [](const guide::Block& block) {
    const auto* beside = std::get_if<guide::Beside>(&block.what);
    return beside != nullptr && is_sheet(beside->figure.scene);
  });
  std::vector<double> shrinks{1.0};
  if (diagrams) shrinks.insert(shrinks.end(), {0.94, 0.88, 0.82});
  // On the trimmer's own plan the numbers stand in the table beside it: that may be smaller yet.
  if (diagrams && heights.columns == 1)
    shrinks.insert(shrinks.end(), {0.75, 0.68, 0.61});
  else if (shrinkable)
    shrinks.insert(shrinks.end(), {0.93, 0.86, 0.79, 0.72, 0.6});
  const double shrink_price = !diagrams ? 70.0 : heights.columns == 1 ? 120.0 : 220.0;

  SectionSetter setter(blocks, width, heights.height, context);
  Trial best;
  double best_cost = std::numeric_limits<double>::infinity();
  for (const double shrink : shrinks) {
    Trial way;
    way.shrink = shrink;
    way.estimate = true;
    const double loss = 1.0 - shrink;
    Flow trial = setter.set(way);
    trial.insert(trial.end(), below.begin(), below.end());
    const double cost = layout_cost(trial, heights) + shrink_price * loss * loss;
    if (cost < best_cost) {
      best_cost = cost;
      best = way;
    }
  }
  best.estimate = false;
  Flow flow = setter.set(best);
  context.trial = {};
  return flow;
}

namespace {

// Lines of a row are those of its tallest cell; about one word in six of a line is lost to the rag.
std::int64_t estimated_lines(std::span<const ColumnNeed> needs, const std::vector<Length>& widths) {
  std::size_t rows = 0;
  for (const ColumnNeed& need : needs) rows = std::max(rows, need.cells.size());
  std::int64_t total = 0;
  for (std::size_t row = 0; row < rows; ++row) {
    std::int64_t tallest = 1;
    for (std::size_t c = 0; c < needs.size(); ++c) {
      if (row >= needs[c].cells.size() || widths[c].nm <= 0) continue;
      const Length cell = needs[c].cells[row];
      if (cell <= widths[c]) continue;
      tallest = std::max(tallest, (cell.nm * 110 / 100 + widths[c].nm - 1) / widths[c].nm);
    }
    total += tallest;
  }
  return total;
}

// Moves width from column to column while that saves lines.
void save_lines(std::span<const ColumnNeed> needs, std::vector<Length>& widths) {
  std::int64_t best = estimated_lines(needs, widths);
  for (const Length step : {points(36), points(12), points(4)}) {
    bool better = true;
    for (int round = 0; better && round < 8; ++round) {
      better = false;
      for (std::size_t from = 0; from < widths.size(); ++from)
        for (std::size_t to = 0; to < widths.size(); ++to) {
          if (from == to || widths[from] - step < needs[from].narrowest) continue;
          widths[from] -= step;
          widths[to] += step;
          const std::int64_t lines = estimated_lines(needs, widths);
          if (lines < best) {
            best = lines;
            better = true;
          } else {
            widths[from] += step;
            widths[to] -= step;
          }
        }
    }
  }
}

} // namespace

ColumnWidths column_widths(std::span<const ColumnNeed> needs, Length room) {
  ColumnWidths result;
  if (needs.empty()) return result;
  Length narrowest{};
  Length widest{};
  double shares = 0.0;
  for (const ColumnNeed& need : needs) {
    narrowest += need.narrowest;
    widest += std::max(need.widest, need.narrowest);
    shares += std::max(need.share, 0.0);
  }
  std::vector<Length>& widths = result.widths;
  const auto give_rest_to_widest = [&] { // rounding
    Length sum{};
    for (const Length w : widths) sum += w;
    *std::ranges::max_element(widths) += room - sum;
  };
  if (narrowest > room) {
    result.fits = false;
    for (const ColumnNeed& need : needs)
      widths.push_back({static_cast<std::int64_t>(static_cast<double>(need.narrowest.nm) *
                                                  static_cast<double>(room.nm) /
                                                  static_cast<double>(narrowest.nm))});
    give_rest_to_widest();
    return result;
  }
  if (widest <= room) {
    const Length left = room - widest;
    for (const ColumnNeed& need : needs) {
      const double part = shares > 0.0 ? std::max(need.share, 0.0) / shares
                                       : 1.0 / static_cast<double>(needs.size());
      widths.push_back(std::max(need.widest, need.narrowest) +
                       Length{static_cast<std::int64_t>(static_cast<double>(left.nm) * part)});
    }
    give_rest_to_widest();
    return result;
  }
  // Some cells must break: begin in proportion to what each column lacks, then move width about
  // while that saves lines.
  const double left = static_cast<double>((room - narrowest).nm);
  const double lack = static_cast<double>((widest - narrowest).nm);
  for (const ColumnNeed& need : needs) {
    const double wish =
        static_cast<double>((std::max(need.widest, need.narrowest) - need.narrowest).nm);
    widths.push_back(need.narrowest + Length{static_cast<std::int64_t>(left * wish / lack)});
  }
  give_rest_to_widest();
  save_lines(needs, widths);
  return result;
}

} // namespace leafwright::page
