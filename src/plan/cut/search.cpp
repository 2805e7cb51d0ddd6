#include "plan/cut/search.h"

#include <algorithm>
#include <set>
#include <utility>

namespace leafwright::cut {

Search::Search(const Normal& n, Budget& b, Statistics& s) : normal(n), budget(b), statistics(s) {
  for (const Type& type : n.types) demand.push_back(type.demand);
  tick_before_ = budget.on_tick([this] { tell(); });
}

Search::~Search() { budget.on_tick(std::move(tick_before_)); }

void Search::tell() const {
  if (!budget.effort().progress) return;
  Progress progress;
  progress.seconds = budget.seconds();
  progress.best_cost = best_cost;
  progress.bound_cost = bound;
  for (const auto& [column, count] : best) progress.best_sheets += count;
  const std::int64_t price = normal.stocks.empty() ? 0 : normal.stocks.front().price;
  const bool alike = std::all_of(normal.stocks.begin(), normal.stocks.end(),
                                 [&](const Stock& stock) { return stock.price == price; });
  if (alike && price > 0) progress.bound_sheets = (bound + price - 1) / price;
  progress.subject = budget.effort().subject;
  progress.doing = doing;
  budget.effort().progress(progress);
}

bool Search::offer(const Sheets& sheets) {
  const std::int64_t cost = cost_of(*this, sheets);
  if (best_cost >= 0 && cost >= best_cost) return false;
  best = sheets;
  best_cost = cost;
  tell();
  return true;
}

namespace {

std::size_t distinct(const Sheets& sheets) {
  std::set<int> columns;
  for (const auto& [column, count] : sheets) columns.insert(column);
  return columns.size();
}

} // namespace

bool Search::offer_tidier(const Sheets& sheets) {
  if (offer(sheets)) return true;
  if (cost_of(*this, sheets) != best_cost || distinct(sheets) >= distinct(best)) return false;
  best = sheets;
  return true;
}

void Search::raise_bound(std::int64_t cost) {
  if (cost <= bound) return;
  bound = cost;
  tell();
}

std::int64_t cost_of(const Search& search, const Sheets& sheets) {
  std::int64_t cost = 0;
  for (const auto& [column, count] : sheets) {
    cost += count * search.normal.stocks[static_cast<std::size_t>(search.pool[column].stock)].price;
  }
  return cost;
}

std::vector<std::int64_t> remaining(const Search& search, const Sheets& sheets) {
  std::vector<std::int64_t> left = search.demand;
  for (const auto& [column, count] : sheets) {
    for (const auto& [type, copies] : search.pool[column].counts) {
      left[static_cast<std::size_t>(type)] -= count * copies;
    }
  }
  return left;
}

} // namespace leafwright::cut
