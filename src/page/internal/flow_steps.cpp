#include "measure/index.h"
#include "page/context.h"
#include "page/internal/block_flows.h"
#include "page/internal/blocks.h"
#include "page/internal/paginate.h"
#include "page/internal/step_setter.h"

#include <algorithm>
#include <limits>
#include <map>
#include <span>
#include <utility>
#include <vector>

namespace leafwright::page {

namespace {

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

const std::vector<Context::MeasuredWay>& measured_ways(std::span<const guide::Step> steps,
                                                       Length width, Context& context) {
  const auto [known, fresh] =
      context.measured_steps.try_emplace({steps.data(), steps.size(), width.nm});
  if (fresh)
    for (const Trial& way : step_trials(width, context)) {
      StepSetter setter(steps, way, width, context);
      known->second.push_back({way, setter.used(), setter.loss()});
    }
  return known->second;
}

// Every way to set these steps on one page, the cheapest first; among equals the one tried first.
std::vector<StepPage> priced_ways(std::span<const guide::Step> steps, Length room, bool last,
                                  Length width, Context& context) {
  std::vector<StepPage> priced;
  for (const auto& [way, used, loss] : measured_ways(steps, width, context)) {
    const bool over = used > room;
    if (over && steps.size() > 1) continue;
    const double empty = std::max(0.0, 1.0 - static_cast<double>(used.nm) /
                                                 static_cast<double>(std::max(room.nm, grain)));
    double price = one_page + 90.0 * loss + 200.0 * loss * loss;
    price += last ? 8.0 * empty * empty : 60.0 * empty * empty + (empty > 0.4 ? 120.0 : 0.0);
    price += way.columns == 1 ? 6.0 : way.columns == 3 ? three_abreast : 0.0;
    if (over) price += too_tall;
    priced.push_back({way, price, used});
  }
  std::ranges::stable_sort(priced, {}, &StepPage::price);
  return priced;
}

// The steps parted into pages. Three abreast is allowed only where every label finds its place,
// and only a drawing tells that: so the pages are chosen first as if it always did, and what was
// chosen is drawn. A page that turns out crowded falls back on its next way, and all are chosen
// anew, until nothing chosen is crowded. That is the same choice as if all had been drawn.
class StepPages {
 public:
  StepPages(std::span<const guide::Step> steps, const StepRooms& rooms, Length width,
            Context& context)
      : steps_(steps), rooms_(rooms), width_(width), context_(context) {}

  std::vector<std::size_t> ends() {
    for (;;) {
      const Runs runs = cheapest_runs(steps_.size(), [this](std::size_t first, std::size_t end) {
        const StepPage* best = cheapest(first, end);
        return best != nullptr ? best->price : std::numeric_limits<double>::infinity();
      });
      std::size_t first = 0;
      const bool kept = std::ranges::all_of(
          runs.ends, [&](std::size_t end) { return keeps(std::exchange(first, end), end); });
      if (kept) return runs.ends;
    }
  }

  StepPage page(std::size_t first, std::size_t end) {
    const StepPage* best = cheapest(first, end);
    return best != nullptr ? *best : StepPage{};
  }
  Length room(std::size_t first) const { return first == 0 ? rooms_.first : rooms_.page; }

 private:
  // The cheapest way first; those known to be crowded are gone.
  using Ways = std::vector<StepPage>;

  Ways& ways(std::size_t first, std::size_t end) {
    const auto [known, fresh] = ways_.try_emplace({first, end});
    if (fresh)
      known->second = priced_ways(steps_.subspan(first, end - first), room(first),
                                  end == steps_.size(), width_, context_);
    return known->second;
  }
  const StepPage* cheapest(std::size_t first, std::size_t end) {
    const Ways& all = ways(first, end);
    return all.empty() ? nullptr : &all.front();
  }
  // Whether the cheapest way of that page holds once it is drawn; otherwise it is taken out.
  bool keeps(std::size_t first, std::size_t end) {
    Ways& all = ways(first, end);
    if (all.empty() || all.front().way.columns != 3) return true;
    if (!StepSetter(steps_.subspan(first, end - first), all.front().way, width_, context_)
             .is_crowded())
      return true;
    all.erase(all.begin());
    return false;
  }

  std::span<const guide::Step> steps_;
  StepRooms rooms_;
  Length width_;
  Context& context_;
  std::map<std::pair<std::size_t, std::size_t>, Ways> ways_;
};

} // namespace

Flow steps_flow(const guide::Steps& steps, const StepRooms& rooms, Length width, Context& context) {
  const std::span<const guide::Step> all = steps.steps;
  StepPages pages(all, rooms, width, context);
  Flow flow;
  std::size_t first = 0;
  for (const std::size_t end : pages.ends()) {
    const StepPage best = pages.page(first, end);
    Trial way = best.way;
    way.estimate = context.trial.estimate;
    Flow part = StepSetter(all.subspan(first, end - first), way, width, context).flow();
    if (end < all.size()) {
      // What a page leaves over is shared out between its rows.
      const auto gaps = static_cast<std::int64_t>(part.size()) - 1;
      const Length left = pages.room(first) - best.used;
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
