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

Pagination paginate(const Flow& flow, Length height) { return paginate(flow, {height, height}); }

namespace {

// Where the first items of a flow may best be parted into pages.
class Paginator {
 public:
  Paginator(const Flow& flow, Heights heights)
      : flow_(flow), heights_(heights),
        best_(heights.count + heights.columns, std::vector<Best>(flow.size() + 1)) {}

  Pagination run() {
    best_[0][0].cost = 0.0;
    // From every place where a page may begin, all places where it may end.
    for (std::size_t first = 0; first < flow_.size(); ++first)
      for (std::size_t slice = 0; slice < best_.size(); ++slice)
        if (best_[slice][first].cost < never) end_pages(first, slice);
    return cheapest();
  }

 private:
  static constexpr double never = std::numeric_limits<double>::infinity();
  static constexpr double overfull = 1e6;
  static constexpr double broken_keep = 5e4;
  struct Best {
    double cost = never;
    std::size_t from = 0;
    std::size_t from_slice = 0;
  };

  // Behind the short slices only the column counts: pages are alike.
  std::size_t behind(std::size_t slice) const {
    return slice + 1 < best_.size() ? slice + 1 : heights_.count;
  }
  double slice_cost(Length used, Length height, bool last) const {
    return page_cost(used, height, last) / static_cast<double>(heights_.columns);
  }
  bool may_end(std::size_t end) const { // behind item end - 1
    return end == flow_.size() || !flow_[end - 1].keep_with_next || flow_[end - 1].break_after;
  }

  void end_pages(std::size_t first, std::size_t slice) {
    const double so_far = best_[slice][first].cost;
    const Length height = heights_.of(slice);
    const std::size_t next = behind(slice);
    const auto reach = [&](std::size_t end, double cost) {
      if (cost < best_[next][end].cost) best_[next][end] = {cost, first, slice};
    };
    Length used = flow_[first].head_space;
    bool ended = false;
    for (std::size_t end = first + 1; end <= flow_.size(); ++end) {
      const FlowItem& item = flow_[end - 1];
      used += item.frame->size.height + (end - 1 > first ? item.space_before : Length{});
      const bool overflows = used > height;
      if (overflows && ended) return; // a shorter page was possible
      if (overflows && end - 1 > first) {
        // What should be kept together is taller than a page: part it rather than run off the
        // paper.
        const Length without = used - item.frame->size.height - item.space_before;
        return reach(end - 1, so_far + slice_cost(without, height, false) + broken_keep);
      }
      const bool forced = item.break_after && end < flow_.size();
      if (may_end(end)) {
        double cost = so_far + slice_cost(used, height, end == flow_.size() || forced);
        if (overflows) cost += overfull;
        if (end < flow_.size() && !forced)
          cost += item.break_cost + (heights_.ends_page(slice) ? item.page_break_cost : 0.0);
        reach(end, cost);
        ended = true;
      }
      if (forced || (overflows && ended)) return;
    }
  }

  Pagination cheapest() const {
    Pagination result;
    std::size_t end = flow_.size();
    std::size_t at = 0;
    for (std::size_t slice = 1; slice < best_.size(); ++slice)
      if (best_[slice][end].cost < best_[at][end].cost) at = slice;
    result.cost = best_[at][end].cost;
    while (end > 0) {
      const Best& here = best_[at][end];
      PageSlice slice;
      slice.first = here.from;
      slice.end = end;
      slice.used = flow_[slice.first].head_space;
      for (std::size_t i = slice.first; i < end; ++i)
        slice.used +=
            flow_[i].frame->size.height + (i > slice.first ? flow_[i].space_before : Length{});
      slice.overfull = slice.used > heights_.of(here.from_slice);
      result.slices.push_back(slice);
      end = here.from;
      at = here.from_slice;
    }
    std::ranges::reverse(result.slices);
    return result;
  }

  const Flow& flow_;
  Heights heights_;
  // best_[k][i]: the first i items set, on k slices; behind the short ones k is a column.
  std::vector<std::vector<Best>> best_;
};

} // namespace

Pagination paginate(const Flow& flow, Heights heights) {
  return flow.empty() ? Pagination{} : Paginator(flow, heights).run();
}

} // namespace leafwright::page
