#include "plan/cut/internal/relax.h"

#include "plan/cut/internal/ruled.h"

#include <algorithm>
#include <cmath>

namespace leafwright::cut {

ScaledValues scaled_values(std::span<const double> prices, const Normal& normal) {
  double most = 1;
  for (const StockSize& stock : normal.stocks)
    most = std::max(most, static_cast<double>(stock.price));
  for (std::size_t s = 0; s < normal.stocks.size(); ++s) {
    const double area = static_cast<double>(normal.stocks[s].width) * normal.stocks[s].height;
    for (const OrientedType& shape : normal.shapes[s]) {
      const double density = prices[static_cast<std::size_t>(shape.type)] /
                             (static_cast<double>(shape.width) * shape.height);
      most = std::max(most, density * area);
    }
  }
  ScaledValues result;
  result.scale = std::ldexp(1.0, 29) / most;
  result.values.reserve(prices.size());
  for (double price : prices) {
    result.values.push_back(static_cast<Value>(std::floor(price * result.scale)));
  }
  return result;
}

namespace {

// The most copies of one shape in a grid.
Slice grid_of(const StockSize& stock, const OrientedType& shape, std::int64_t most) {
  Slice slice;
  const int across = stock.width / shape.width;
  const int up = stock.height / shape.height;
  int column = -1;
  for (int i = 0; i < across && most > 0; ++i) {
    int stack = -1;
    for (int j = 0; j < up && most > 0; ++j, --most) {
      stack = slice.join(Join::Above, stack, slice.leaf(shape));
    }
    column = slice.join(Join::Beside, column, stack);
  }
  return slice;
}

// Lowers the values of types of which the pattern has more than wanted, so that the next pattern
// turns to others. False: there are none.
bool lower_surplus(const Slice& slice, std::span<const std::int64_t> demand,
                   std::vector<Value>& values) {
  bool any = false;
  for (const auto& [type, copies] : counts_of(slice)) {
    const std::int64_t wanted = demand[static_cast<std::size_t>(type)];
    if (copies <= wanted) continue;
    Value& value = values[static_cast<std::size_t>(type)];
    value = static_cast<Value>(std::int64_t{value} * std::max<std::int64_t>(wanted, 0) / copies);
    any = true;
  }
  return any;
}

} // namespace

Relaxation::Relaxation(Search& search)
    : search_(search), master_(search.normal.stocks, search.demand) {
  first_columns();
}

void Relaxation::first_columns() {
  const Normal& normal = search_.normal;
  if (normal.rigid()) return; // the grids would leave waste too narrow to cut off
  for (std::size_t s = 0; s < normal.stocks.size(); ++s) {
    for (const OrientedType& shape : normal.shapes[s]) {
      Column column;
      column.stock = static_cast<int>(s);
      column.slice =
          grid_of(normal.stocks[s], shape, search_.demand[static_cast<std::size_t>(shape.type)]);
      column.counts = counts_of(column.slice);
      add(std::move(column));
    }
  }
}

int Relaxation::add(Column column) {
  const int index = search_.pool.add(std::move(column)).first;
  for (; known_ < search_.pool.size(); ++known_) master_.add(search_.pool[known_]);
  return index;
}

bool Relaxation::wants_few(std::span<const std::int64_t> demand) const {
  // One stock without rules has the local search for the last sheets.
  if (search_.normal.stocks.size() == 1 && !search_.normal.rigid()) return false;
  std::int64_t sum = 0;
  for (const std::int64_t d : demand) sum += d;
  return sum <= 200;
}

Relaxation::Patterns Relaxation::best_patterns(std::size_t s, const Pricing& pricing,
                                               std::span<const Value> values, double above,
                                               int count) {
  const Normal& normal = search_.normal;
  const StockSize& stock = normal.stocks[s];
  Patterns found;
  const auto keep_book = [&](const auto& table) {
    search_.budget.spend(table.work() / 8 + 20'000);
    ++search_.statistics.pricings;
    if (table.exact()) ++search_.statistics.exact_pricings;
    found.exact = table.exact();
    found.best = table.best();
  };
  if (normal.rigid()) {
    const Ruled table(stock.width, stock.height, normal.shapes[s], values, normal.strip_x,
                      normal.strip_y, normal.stages);
    keep_book(table);
    if (static_cast<double>(found.best) > above) found.slices.push_back(table.pattern());
  } else {
    const Inside table(stock.width, stock.height, normal.shapes[s], pricing.demand, values,
                       pricing.most_points);
    keep_book(table);
    if (static_cast<double>(found.best) > above)
      found.slices = table.patterns(static_cast<Value>(above), count);
  }
  return found;
}

Relaxation::Priced Relaxation::price(const Pricing& pricing) {
  const Normal& normal = search_.normal;
  const ScaledValues scaled = scaled_values(pricing.prices, normal);
  Priced result;
  std::vector<std::int64_t> most(normal.stocks.size(), 0);
  std::vector<Column> found;
  for (std::size_t s = 0; s < normal.stocks.size(); ++s) {
    const double cost = static_cast<double>(normal.stocks[s].price) + pricing.stock_prices[s];
    const double limit = cost * scaled.scale * (1 + 1e-7) + 1;
    auto [best, exact, slices] = best_patterns(s, pricing, scaled.values, limit, 6);
    result.exact = result.exact && exact;
    most[s] = best;
    if (!slices.empty() && wants_few(pricing.demand)) {
      std::vector<Value> values = scaled.values;
      for (int k = 0; k < 15 && lower_surplus(slices.back(), pricing.demand, values); ++k) {
        Patterns more = best_patterns(s, pricing, values, 0, 1);
        result.exact = result.exact && more.exact;
        if (more.slices.empty()) break;
        slices.push_back(std::move(more.slices.front()));
      }
    }
    for (Slice& slice : slices) {
      Column column;
      column.stock = static_cast<int>(s);
      column.slice = std::move(slice);
      column.counts = counts_of(column.slice);
      found.push_back(std::move(column));
    }
  }
  if (result.exact && pricing.whole) {
    const std::vector<std::int64_t> values(scaled.values.begin(), scaled.values.end());
    search_.raise_bound(value_bound(normal.stocks, pricing.demand, values, most));
  }
  for (Column& column : found) {
    const int before = search_.pool.size();
    add(std::move(column));
    result.found = result.found || search_.pool.size() > before;
  }
  return result;
}

bool Relaxation::solve(std::span<const std::int64_t> demand,
                       std::span<const std::int64_t> stock_used, Aim aim, int most_rounds) {
  const bool whole = aim != Aim::Guide;
  for (; known_ < search_.pool.size(); ++known_) master_.add(search_.pool[known_]);
  master_.set_demand(demand, stock_used);
  constexpr int coarse_points = 160;
  constexpr int fine_points = 500;
  int points = coarse_points;
  for (int round = 0; round < most_rounds; ++round) {
    const int pivots = master_.solve();
    search_.budget.spend(std::int64_t{pivots} * (4 * search_.pool.size() + 4'000) + 20'000);
    value_ = master_.value();
    if (search_.budget.out()) return false;
    if (aim == Aim::Bound && master_.shortage() < 1e-6) {
      const std::int64_t step = price_step(search_.normal.stocks);
      const double least =
          std::ceil(value_ / static_cast<double>(step) - 1e-6) * static_cast<double>(step);
      if (static_cast<double>(search_.bound) >= least) return true;
    }
    const std::vector<double> prices = master_.prices();
    const std::vector<double> stock_prices = master_.stock_prices();
    const Priced priced = price({demand, prices, stock_prices, whole, points});
    if (priced.found) continue;
    if (priced.exact || points == 0) return true;
    points = points == coarse_points ? fine_points : 0;
    if (!whole && points == 0) return true;
  }
  return true;
}

} // namespace leafwright::cut
