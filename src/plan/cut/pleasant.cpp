#include "plan/cut/pleasant.h"

#include "plan/cut/layout.h"
#include "plan/cut/repack.h"
#include "plan/cut/strips.h"

#include <algorithm>
#include <numeric>
#include <span>
#include <utility>

namespace leafwright::cut {

namespace {

constexpr std::int64_t most_pieces = 120;
constexpr int free_tries = 24;
constexpr int strip_tries = 400;

// What a person has to do, less is better: a setting of the fence is as much trouble as three cuts,
// and keeping a tenth of a sheet more in one piece is worth one setting. Among equals fewer cuts.
std::pair<std::int64_t, int> trouble(const Job& job, const Normal& normal,
                                     const std::vector<Batch>& batches) {
  Plan plan;
  plan.patterns = lay_out(job, normal, batches);
  int settings = 0;
  int cuts = 0;
  Length sheet = 1;
  for (const Pattern& pattern : plan.patterns) {
    settings += fence_settings(pattern);
    for (const Part& part : pattern.parts) cuts += part.kind == PartKind::Cut ? 1 : 0;
    sheet = pattern.parts.front().width * pattern.parts.front().height;
  }
  const double kept = static_cast<double>(largest_offcut(plan)) / static_cast<double>(sheet);
  return {3 * settings + cuts - static_cast<std::int64_t>(30 * kept), cuts};
}

std::vector<Batch> batches_of(int stock, std::vector<Slice> slices) {
  std::vector<Batch> batches;
  for (Slice& slice : slices) {
    if (!slice.empty()) batches.push_back({stock, 1, std::move(slice)});
  }
  merge_alike(batches);
  return batches;
}

// The best of the plan and of many in strips for the same pieces on as few sheets.
void try_strips(const Job& job, const Normal& normal, std::span<const std::int64_t> demand,
                std::size_t sheets, std::vector<Batch>& best) {
  auto least = trouble(job, normal, best);
  const int stock = best.front().stock;
  Draw draw(17);
  for (int k = 0; k < strip_tries; ++k) {
    std::vector<Slice> slices = in_strips(normal, stock, demand, sheets, draw);
    if (slices.empty()) continue;
    std::vector<Batch> other = batches_of(stock, std::move(slices));
    const auto its = trouble(job, normal, other);
    if (its >= least) continue;
    least = its;
    best = std::move(other);
  }
}

// Each pattern on its own, where not all of them together can be in strips.
void strips_by_pattern(const Job& job, const Normal& normal, std::vector<Batch>& batches) {
  for (Batch& batch : batches) {
    std::vector<std::int64_t> demand(normal.types.size(), 0);
    for (const auto& [type, copies] : counts_of(batch.slice)) {
      demand[static_cast<std::size_t>(type)] = copies;
    }
    std::vector<Batch> one = {{batch.stock, 1, batch.slice}};
    try_strips(job, normal, demand, 1, one);
    if (one.size() == 1) batch.slice = std::move(one.front().slice);
  }
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
  // What the search has spent does not count here: these steps are few and always the same.
  Budget budget(search.budget.effort());
  auto least = trouble(job, normal, batches);
  std::vector<Batch> best = batches;
  for (int k = 1; k <= free_tries && !search.budget.hurried(); ++k) {
    RepackTask task;
    task.demand = search.demand;
    task.stocks = stocks;
    task.sizes = sizes;
    task.number = static_cast<std::uint64_t>(k);
    task.steps = 4000;
    RepackResult result = repack(normal, task, budget);
    search.statistics.moves += result.moves;
    if (result.slices.empty()) continue;
    std::vector<Batch> other = batches_of(0, std::move(result.slices));
    const auto its = trouble(job, normal, other);
    if (its >= least) continue;
    least = its;
    best = std::move(other);
  }
  if (search.budget.hurried()) return best;
  try_strips(job, normal, search.demand, count, best);
  strips_by_pattern(job, normal, best);
  return best;
}

} // namespace leafwright::cut
