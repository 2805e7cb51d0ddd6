#include "plan/cut/shrink.h"

#include "plan/cut/random.h"
#include "plan/cut/repack.h"

#include <algorithm>
#include <numeric>

namespace leafwright::cut {

namespace {

constexpr std::int64_t most_pieces = 400;
constexpr std::size_t most_sheets = 120;

Sheets into_pool(Search& search, std::span<const int> stocks, std::vector<Slice> slices) {
  Sheets sheets;
  for (std::size_t k = 0; k < slices.size(); ++k) {
    if (slices[k].empty()) continue;
    Column column;
    column.stock = stocks[k];
    column.counts = counts_of(slices[k]);
    column.slice = std::move(slices[k]);
    sheets.emplace_back(search.pool.add(std::move(column)).first, 1);
  }
  return sheets;
}

bool one_stock(const Search& search) { return search.normal.stocks.size() == 1; }

std::int64_t sum(std::span<const std::int64_t> counts) {
  return std::accumulate(counts.begin(), counts.end(), std::int64_t{0});
}

double filled_share(const Search& search, const Slice& slice, int stock_index) {
  const Stock& stock = search.normal.stocks[static_cast<std::size_t>(stock_index)];
  double area = 0;
  for (const SliceNode& node : slice.nodes) {
    if (node.join == Join::Leaf) area += static_cast<double>(node.width) * node.height;
  }
  return area / (static_cast<double>(stock.width) * stock.height);
}

} // namespace

Sheets pack_rest(Search& search, std::span<const std::int64_t> left, std::int64_t cost_below,
                 std::uint64_t number, std::int64_t steps) {
  const std::int64_t price = search.normal.stocks.front().price;
  if (!one_stock(search) || search.normal.rigid() || price <= 0) return {};
  const std::int64_t count = (cost_below - 1) / price;
  const Stock& stock = search.normal.stocks.front();
  if (count < 1 || count > static_cast<std::int64_t>(most_sheets)) return {};
  if (stock.limit >= 0 && count > stock.limit) return {};
  const std::vector<int> stocks(static_cast<std::size_t>(count), 0);
  RepackResult result = repack(search.normal, {left, stocks, {}, {}, number, steps}, search.budget);
  search.statistics.moves += result.moves;
  return into_pool(search, stocks, std::move(result.slices));
}

void first_plan(Search& search) {
  const std::int64_t pieces = sum(search.demand);
  if (!one_stock(search) || search.normal.rigid() || pieces > most_pieces ||
      search.normal.stocks.front().limit >= 0)
    return;
  const std::vector<int> stocks(static_cast<std::size_t>(pieces), 0);
  RepackResult result = repack(search.normal, {search.demand, stocks, {}, {}, 1, 1}, search.budget);
  if (!result.slices.empty()) search.offer(into_pool(search, stocks, std::move(result.slices)));
}

bool shrink(Search& search, std::uint64_t number, std::int64_t steps) {
  if (!one_stock(search) || search.normal.rigid() || search.best_cost < 0) return false;
  struct Sheet {
    int column;
    Slice slice;
    double full;
    double rank;
  };
  Draw draw(number);
  std::vector<Sheet> sheets;
  std::vector<std::int64_t> left = search.demand;
  for (const auto& [index, count] : search.best) {
    const Column& column = search.pool[index];
    for (std::int64_t k = 0; k < std::min<std::int64_t>(count, 40); ++k) {
      // Of very many sheets alike a few are enough to draw from.
      Slice slice = capped(column.slice, left);
      for (const auto& [type, copies] : counts_of(slice)) {
        left[static_cast<std::size_t>(type)] -= copies;
      }
      const double full = filled_share(search, slice, column.stock);
      sheets.push_back({index, std::move(slice), full, full + 0.1 * draw.unit()});
    }
    for (const auto& [type, copies] : column.counts) {
      left[static_cast<std::size_t>(type)] -= std::max<std::int64_t>(0, count - 40) * copies;
    }
  }
  std::stable_sort(sheets.begin(), sheets.end(),
                   [](const Sheet& a, const Sheet& b) { return a.rank < b.rank; });
  std::vector<std::int64_t> demand(search.demand.size(), 0);
  std::vector<Slice> start;
  Sheets kept = search.best;
  std::int64_t pieces = 0;
  for (Sheet& sheet : sheets) {
    const Counts counts = counts_of(sheet.slice);
    std::int64_t more = 0;
    for (const auto& [type, copies] : counts) more += copies;
    if (start.size() >= most_sheets || pieces + more > most_pieces) break;
    pieces += more;
    for (const auto& [type, copies] : counts) demand[static_cast<std::size_t>(type)] += copies;
    start.push_back(std::move(sheet.slice));
    for (auto& [index, count] : kept) {
      if (index == sheet.column && count > 0) {
        --count;
        break;
      }
    }
  }
  if (start.size() < 2) return false;
  std::erase_if(kept, [](const auto& entry) { return entry.second <= 0; });
  start.erase(start.begin()); // the emptiest
  const std::vector<int> stocks(start.size(), 0);
  RepackResult result =
      repack(search.normal, {demand, stocks, start, {}, number, steps}, search.budget);
  search.statistics.moves += result.moves;
  if (result.slices.empty()) return false;
  for (const auto& entry : into_pool(search, stocks, std::move(result.slices))) {
    kept.push_back(entry);
  }
  return search.offer(kept);
}

} // namespace leafwright::cut
