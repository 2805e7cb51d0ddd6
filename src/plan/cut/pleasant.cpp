#include "plan/cut/pleasant.h"

#include "plan/cut/layout.h"
#include "plan/cut/repack.h"

#include <numeric>
#include <tuple>

namespace leafwright::cut {

namespace {

constexpr std::int64_t most_pieces = 120;
constexpr int variations = 24;

// Larger is better.
std::tuple<Length, int, int> rank(const Job& job, const Normal& normal,
                                  const std::vector<Batch>& batches) {
  Plan plan;
  plan.patterns = lay_out(job, normal, batches);
  int settings = 0;
  int cuts = 0;
  for (const Pattern& pattern : plan.patterns) {
    settings += fence_settings(pattern);
    for (const Part& part : pattern.parts) cuts += part.kind == PartKind::Cut ? 1 : 0;
  }
  return {largest_offcut(plan), -settings, -cuts};
}

// The sheets, the last cut short so that at least the strip the plan leaves now stays free.
std::vector<SheetSize> sizes_with_rest(const Stock& stock, std::size_t count,
                                       const Slice& emptiest) {
  std::vector<SheetSize> sizes(count, {stock.width, stock.height});
  const SliceNode& root = emptiest.nodes.back();
  const std::int64_t beside = std::int64_t{stock.width - root.width} * stock.height;
  const std::int64_t above = std::int64_t{stock.height - root.height} * stock.width;
  if (beside >= above) {
    sizes.back().width = root.width;
  } else {
    sizes.back().height = root.height;
  }
  return sizes;
}

} // namespace

std::vector<Batch> most_pleasant(const Job& job, Search& search, std::vector<Batch> batches) {
  const Normal& normal = search.normal;
  const std::int64_t pieces =
      std::accumulate(search.demand.begin(), search.demand.end(), std::int64_t{0});
  if (normal.stocks.size() != 1 || normal.rigid() || pieces > most_pieces || batches.empty()) {
    return batches;
  }
  const Stock& stock = normal.stocks.front();
  std::int64_t sheets = 0;
  const Slice* emptiest = &batches.front().slice;
  for (const Batch& batch : batches) {
    sheets += batch.count;
    if (free_strip(stock, batch.slice) > free_strip(stock, *emptiest)) emptiest = &batch.slice;
  }
  const auto count = static_cast<std::size_t>(sheets);
  const std::vector<int> stocks(count, 0);
  const std::vector<SheetSize> sizes = sizes_with_rest(stock, count, *emptiest);
  auto best_rank = rank(job, normal, batches);
  std::vector<Batch> best = batches;
  for (int k = 1; k <= variations && !search.budget.out(); ++k) {
    RepackTask task;
    task.demand = search.demand;
    task.stocks = stocks;
    task.sizes = sizes;
    task.number = static_cast<std::uint64_t>(k);
    task.steps = 4000;
    RepackResult result = repack(normal, task, search.budget);
    search.statistics.moves += result.moves;
    if (result.slices.empty()) continue;
    std::vector<Batch> other;
    for (Slice& slice : result.slices) {
      if (!slice.empty()) other.push_back({0, 1, std::move(slice)});
    }
    merge_alike(other);
    const auto other_rank = rank(job, normal, other);
    if (other_rank > best_rank) {
      best_rank = other_rank;
      best = std::move(other);
    }
  }
  return best;
}

} // namespace leafwright::cut
