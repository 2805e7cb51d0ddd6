#include "page/paginate.h"

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

Pagination paginate(const Flow& flow, Length height) {
  Pagination result;
  const std::size_t count = flow.size();
  if (count == 0) return result;
  struct Best {
    double cost = std::numeric_limits<double>::infinity();
    std::size_t from = 0;
  };
  constexpr double overfull = 1e6;
  constexpr double broken_keep = 5e4;
  std::vector<Best> best(count + 1);
  best[0].cost = 0.0;
  const auto may_end = [&](std::size_t end) { // behind item end - 1
    return end == count || !flow[end - 1].keep_with_next || flow[end - 1].break_after;
  };
  // From every place where a page may begin, all places where it may end.
  for (std::size_t first = 0; first < count; ++first) {
    if (best[first].cost == std::numeric_limits<double>::infinity()) continue;
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
        const double cost = best[first].cost + page_cost(without, height, false) + broken_keep;
        if (cost < best[end - 1].cost) best[end - 1] = {cost, first};
        break;
      }
      const bool forced = item.break_after && end < count;
      if (may_end(end)) {
        const bool last = end == count || forced;
        double cost = best[first].cost + page_cost(used, height, last);
        if (too_tall) cost += overfull;
        if (end < count && !forced) cost += item.break_cost;
        if (cost < best[end].cost) best[end] = {cost, first};
        ended = true;
      }
      if (forced || (too_tall && ended)) break;
    }
  }
  result.cost = best[count].cost;
  for (std::size_t end = count; end > 0; end = best[end].from) {
    PageSlice slice;
    slice.first = best[end].from;
    slice.end = end;
    slice.used = flow[slice.first].head_space;
    for (std::size_t i = slice.first; i < end; ++i)
      slice.used +=
          flow[i].frame->size.height + (i > slice.first ? flow[i].space_before : Length{});
    slice.overfull = slice.used > height;
    result.slices.push_back(slice);
  }
  std::ranges::reverse(result.slices);
  return result;
}

} // namespace leafwright::page
