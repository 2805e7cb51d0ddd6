#include "page/internal/paginate.h"

#include <algorithm>
#include <limits>

namespace leafwright::page {

double page_cost(Length used, Length height, bool last) {
  const double empty =
      1.0 - std::min(1.0, static_cast<double>(used.nm) / static_cast<double>(height.nm));
  if (!last) return 20.0 + 100.0 * empty * empty;
  // A few lines alone on a page look lost; otherwise a chapter may end where it ends.
  const double lost = empty > 0.8 ? (empty - 0.8) * 250.0 : 0.0;
  return 20.0 + 12.0 * empty * empty + lost;
}

Runs cheapest_runs(std::size_t count,
                   const std::function<double(std::size_t first, std::size_t end)>& price) {
  constexpr double none = std::numeric_limits<double>::infinity();
  std::vector<double> least(count + 1, none);
  std::vector<std::size_t> from(count + 1, 0);
  least[0] = 0.0;
  for (std::size_t first = 0; first < count; ++first) {
    if (least[first] == none) continue;
    for (std::size_t end = first + 1; end <= count; ++end) {
      const double here = price(first, end);
      if (here == none) break;
      if (least[first] + here < least[end]) {
        least[end] = least[first] + here;
        from[end] = first;
      }
    }
  }
  Runs runs;
  runs.price = least[count];
  if (runs.price == none) return runs;
  for (std::size_t end = count; end > 0; end = from[end]) runs.ends.push_back(end);
  std::ranges::reverse(runs.ends);
  return runs;
}

Pagination paginate(const Flow& flow, Length height) { return paginate(flow, {height, height, 0}); }

Pagination paginate(const Flow& flow, Heights heights) {
  Pagination result;
  const std::size_t count = flow.size();
  if (count == 0) return result;
  struct Best {
    double cost = std::numeric_limits<double>::infinity();
    std::size_t from = 0;
    std::size_t from_slice = 0;
  };
  constexpr double overfull = 1e6;
  constexpr double broken_keep = 5e4;
  // best[k][i]: the first i items set, on k slices; k counts no further than the short ones.
  const std::size_t layers = heights.count + 1;
  std::vector<std::vector<Best>> best(layers, std::vector<Best>(count + 1));
  best[0][0].cost = 0.0;
  const auto may_end = [&](std::size_t end) { // behind item end - 1
    return end == count || !flow[end - 1].keep_with_next || flow[end - 1].break_after;
  };
  const auto height_of = [&](std::size_t slice) {
    return slice < heights.count ? heights.first : heights.height;
  };
  // From every place where a page may begin, all places where it may end.
  for (std::size_t first = 0; first < count; ++first)
    for (std::size_t slice = 0; slice < layers; ++slice) {
      const double so_far = best[slice][first].cost;
      if (so_far == std::numeric_limits<double>::infinity()) continue;
      const Length height = height_of(slice);
      const std::size_t next = std::min(slice + 1, heights.count);
      const auto reach = [&](std::size_t end, double cost) {
        if (cost < best[next][end].cost) best[next][end] = {cost, first, slice};
      };
      Length used = flow[first].head_space;
      bool ended = false;
      for (std::size_t end = first + 1; end <= count; ++end) {
        const FlowItem& item = flow[end - 1];
        used += item.frame->size.height + (end - 1 > first ? item.space_before : Length{});
        const bool too_tall = used > height;
        if (too_tall && ended) break; // a shorter page was possible
        if (too_tall && end - 1 > first) {
          // What should be kept together is taller than a page: part it rather than run off the
          // paper.
          const Length without = used - item.frame->size.height - item.space_before;
          reach(end - 1, so_far + page_cost(without, height, false) + broken_keep);
          break;
        }
        const bool forced = item.break_after && end < count;
        if (may_end(end)) {
          const bool last = end == count || forced;
          double cost = so_far + page_cost(used, height, last);
          if (too_tall) cost += overfull;
          if (end < count && !forced) cost += item.break_cost;
          reach(end, cost);
          ended = true;
        }
        if (forced || (too_tall && ended)) break;
      }
    }
  std::size_t slice_at = 0;
  for (std::size_t slice = 1; slice < layers; ++slice)
    if (best[slice][count].cost < best[slice_at][count].cost) slice_at = slice;
  result.cost = best[slice_at][count].cost;
  for (std::size_t end = count; end > 0;) {
    const Best& here = best[slice_at][end];
    PageSlice slice;
    slice.first = here.from;
    slice.end = end;
    slice.used = flow[slice.first].head_space;
    for (std::size_t i = slice.first; i < end; ++i)
      slice.used +=
          flow[i].frame->size.height + (i > slice.first ? flow[i].space_before : Length{});
    slice.overfull = slice.used > height_of(here.from_slice);
    result.slices.push_back(slice);
    end = here.from;
    slice_at = here.from_slice;
  }
  std::ranges::reverse(result.slices);
  return result;
}

} // namespace leafwright::page
