#include "plan/cut/internal/shrink.h"

#include "plan/cut/internal/rounding.h"
#include "plan/cut/internal/ruled.h"
#include "plan/cut/internal/search.h"

#include <algorithm>
#include <numeric>
#include <optional>

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
  const StockSize& stock = search.normal.stocks[static_cast<std::size_t>(stock_index)];
  double area = 0;
  for (const SliceNode& node : slice.nodes) {
    if (node.join == Join::Leaf) area += static_cast<double>(node.width) * node.height;
  }
  return area / (static_cast<double>(stock.width) * stock.height);
}

} // namespace

namespace {

// Sheets that a rest may be packed into for less than `cost_below`: those of the one stock that
// never runs out, and what is there for nothing. Empty: no such stocks, or too many sheets.
std::vector<int> sheets_for_rest(const Search& search, std::span<const std::int64_t> used,
                                 std::int64_t cost_below) {
  const auto& stocks = search.normal.stocks;
  std::vector<int> sheets;
  int bought = -1;
  for (std::size_t s = 0; s < stocks.size(); ++s) {
    const std::int64_t there = stocks[s].limit < 0 ? -1 : stocks[s].limit - used[s];
    if (stocks[s].price > 0 && (there < 0 || one_stock(search))) {
      if (bought >= 0) return {};
      bought = static_cast<int>(s);
    } else if (stocks[s].price == 0 && there > 0) {
      const auto count = std::min<std::int64_t>(there, static_cast<std::int64_t>(most_sheets));
      sheets.insert(sheets.end(), static_cast<std::size_t>(count), static_cast<int>(s));
    } else if (there != 0) {
      return {};
    }
  }
  if (bought < 0) return {};
  const StockSize& stock = stocks[static_cast<std::size_t>(bought)];
  const std::int64_t count = (cost_below - 1) / stock.price;
  if (stock.limit >= 0 && count > stock.limit - used[static_cast<std::size_t>(bought)]) return {};
  if (count < 0 ||
      count + static_cast<std::int64_t>(sheets.size()) > static_cast<std::int64_t>(most_sheets))
    return {};
  sheets.insert(sheets.end(), static_cast<std::size_t>(count), bought);
  return sheets;
}

// Lays the sheets out so that the rules are kept; false: one of them cannot be.
bool make_rigid(const Normal& normal, std::span<const int> stocks, std::vector<Slice>& slices) {
  for (std::size_t k = 0; k < slices.size(); ++k) {
    if (slices[k].empty()) continue;
    std::optional<Slice> rigid = made_rigid(normal, stocks[k], slices[k]);
    if (!rigid) return false;
    slices[k] = std::move(*rigid);
  }
  return true;
}

} // namespace

Sheets pack_rest(Search& search, std::span<const std::int64_t> left,
                 std::span<const std::int64_t> used, std::int64_t cost_below, std::uint64_t number,
                 std::int64_t steps) {
  const std::vector<int> stocks = sheets_for_rest(search, used, cost_below);
  if (stocks.empty()) return {};
  // Packed without the rules a sheet may not keep them: then other walks are tried.
  const std::uint64_t walks = search.normal.rigid() ? 12 : 1;
  for (std::uint64_t walk = 0; walk < walks && !search.budget.out(); ++walk) {
    RepackResult result = repack(
        search.normal,
        {left, stocks, {}, {}, number * walks + walk, steps / static_cast<std::int64_t>(walks)},
        search.budget);
    search.statistics.moves += result.moves;
    if (result.slices.empty()) continue;
    if (search.normal.rigid() && !make_rigid(search.normal, stocks, result.slices)) continue;
    return into_pool(search, stocks, std::move(result.slices));
  }
  return {};
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

namespace {

struct Sheet {
  int column = 0;
  int stock = 0;
  Slice slice;
  double rank = 0;
};

// The sheets of the best plan one by one (of very many alike a few), the emptiest first.
std::vector<Sheet> single_sheets(const Search& search, Draw& draw) {
  constexpr std::int64_t most_alike = 40;
  std::vector<Sheet> sheets;
  std::vector<std::int64_t> left = search.demand;
  for (const auto& [index, count] : search.best) {
    const Column& column = search.pool[index];
    for (std::int64_t k = 0; k < std::min(count, most_alike); ++k) {
      Slice slice = capped(column.slice, left);
      for (const auto& [type, copies] : counts_of(slice)) {
        left[static_cast<std::size_t>(type)] -= copies;
      }
      const double rank = filled_share(search, slice, column.stock) + 0.1 * draw.unit();
      sheets.push_back({index, column.stock, std::move(slice), rank});
    }
    for (const auto& [type, copies] : column.counts) {
      left[static_cast<std::size_t>(type)] -=
          std::max<std::int64_t>(0, count - most_alike) * copies;
    }
  }
  std::stable_sort(sheets.begin(), sheets.end(),
                   [](const Sheet& a, const Sheet& b) { return a.rank < b.rank; });
  return sheets;
}

void take_out(Sheets& sheets, int column) {
  for (auto& [index, count] : sheets) {
    if (index == column && count > 0) {
      --count;
      return;
    }
  }
}

// A stock that costs less than the sheet's and of which one more may be used; -1: none.
int cheaper_stock(const Search& search, int stock, Draw& draw) {
  const auto& stocks = search.normal.stocks;
  std::vector<std::int64_t> used(stocks.size(), 0);
  for (const auto& [column, count] : search.best) {
    used[static_cast<std::size_t>(search.pool[column].stock)] += count;
  }
  std::vector<int> cheaper;
  for (std::size_t s = 0; s < stocks.size(); ++s) {
    if (stocks[s].price >= stocks[static_cast<std::size_t>(stock)].price) continue;
    if (stocks[s].limit < 0 || used[s] < stocks[s].limit) cheaper.push_back(static_cast<int>(s));
  }
  if (cheaper.empty()) return -1;
  return cheaper[static_cast<std::size_t>(draw.below(static_cast<int>(cheaper.size())))];
}

} // namespace

bool repacked_whole(const Search& search) {
  std::int64_t sheets = 0;
  for (const auto& [column, count] : search.best) sheets += count;
  return sum(search.demand) <= most_pieces && sheets <= static_cast<std::int64_t>(most_sheets);
}

bool shrink(Search& search, std::uint64_t number, std::int64_t steps) {
  if (search.normal.rigid() || search.best_cost < 0) return false;
  Draw draw(number);
  std::vector<std::int64_t> demand(search.demand.size(), 0);
  std::vector<int> stocks;
  std::vector<Slice> start;
  Sheets kept = search.best;
  std::int64_t pieces = 0;
  for (Sheet& sheet : single_sheets(search, draw)) {
    const Counts counts = counts_of(sheet.slice);
    std::int64_t more = 0;
    for (const auto& [type, copies] : counts) more += copies;
    if (start.size() >= most_sheets || pieces + more > most_pieces) break;
    pieces += more;
    for (const auto& [type, copies] : counts) demand[static_cast<std::size_t>(type)] += copies;
    stocks.push_back(sheet.stock);
    start.push_back(std::move(sheet.slice));
    take_out(kept, sheet.column);
  }
  if (start.empty()) return false;
  std::erase_if(kept, [](const auto& entry) { return entry.second <= 0; });
  // One sheet is given up, or a cheaper one taken instead.
  const auto given = one_stock(search) || draw.below(2) == 0
                         ? std::size_t{0}
                         : static_cast<std::size_t>(draw.below(static_cast<int>(start.size())));
  const int instead =
      one_stock(search) || draw.below(3) == 0 ? -1 : cheaper_stock(search, stocks[given], draw);
  if (instead >= 0) {
    stocks[given] = instead;
    start[given] = {};
  } else {
    if (search.normal.stocks[static_cast<std::size_t>(stocks[given])].price <= 0) return false;
    start.erase(start.begin() + static_cast<std::ptrdiff_t>(given));
    stocks.erase(stocks.begin() + static_cast<std::ptrdiff_t>(given));
  }
  if (stocks.empty()) return false;
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
