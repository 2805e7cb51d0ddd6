#include "plan/cut/bound.h"

#include <algorithm>
#include <numeric>

namespace leafwright::cut {

Wide divided_up(Wide a, Wide b) { return a >= 0 ? (a + b - 1) / b : -(-a / b); }

std::int64_t price_step(std::span<const Stock> stocks) {
  std::int64_t step = 0;
  for (const Stock& stock : stocks) step = std::gcd(step, stock.price);
  return std::max<std::int64_t>(1, step);
}

namespace {

std::int64_t on_step(Wide cost, std::int64_t step) {
  return static_cast<std::int64_t>(divided_up(std::max<Wide>(0, cost), step) * step);
}

// The bound when `scale_most / scale_price` values are worth one unit of price.
Wide bound_at(std::span<const Stock> stocks, Wide total, std::span<const std::int64_t> most,
              Wide scale_most, Wide scale_price) {
  Wide sum = total * scale_price;
  for (std::size_t s = 0; s < stocks.size(); ++s) {
    const Wide excess = Wide{most[s]} * scale_price - scale_most * stocks[s].price;
    if (excess <= 0) continue;
    if (stocks[s].limit < 0) return 0; // this scale proves nothing
    sum -= excess * stocks[s].limit;
  }
  return divided_up(std::max<Wide>(0, sum), scale_most);
}

} // namespace

std::int64_t value_bound(std::span<const Stock> stocks, std::span<const std::int64_t> demand,
                         std::span<const std::int64_t> value, std::span<const std::int64_t> most) {
  Wide total = 0;
  for (std::size_t t = 0; t < demand.size(); ++t) {
    total += Wide{std::max<std::int64_t>(0, demand[t])} * value[t];
  }
  // The bound is concave and piecewise linear in the scale; its best is where one stock is just
  // paid.
  Wide best = 0;
  for (std::size_t s = 0; s < stocks.size(); ++s) {
    if (most[s] <= 0 || stocks[s].price <= 0) continue;
    best = std::max(best, bound_at(stocks, total, most, most[s], stocks[s].price));
  }
  return on_step(best, price_step(stocks));
}

std::int64_t area_bound(const Job& job, const Normal& normal) {
  // In halves of small units the areas of usual jobs fit 64 bits; very large ones are scaled down,
  // pieces rounded down and sheets up.
  const auto area = [](Length w, Length h) { return Wide{w} * h; };
  const Length k = job.rules.blade;
  Wide largest = 1;
  for (const Stock& stock : normal.stocks) {
    const SheetType& sheet = job.sheets[static_cast<std::size_t>(stock.sheet)];
    largest = std::max(largest, area(sheet.width + k, sheet.height + k));
  }
  Wide divide = 1;
  while (largest / divide > (Wide{1} << 60)) divide *= 2;
  std::vector<std::int64_t> demand;
  std::vector<std::int64_t> value;
  for (const Type& type : normal.types) {
    demand.push_back(type.demand);
    value.push_back(static_cast<std::int64_t>(area(type.real_width, type.real_height) / divide));
  }
  std::vector<std::int64_t> most;
  for (const Stock& stock : normal.stocks) {
    most.push_back(static_cast<std::int64_t>(
        divided_up(area((stock.width + (normal.coarse ? 1 : 0)) * normal.unit_x,
                        (stock.height + (normal.coarse ? 1 : 0)) * normal.unit_y),
                   divide)));
  }
  return value_bound(normal.stocks, demand, value, most);
}

} // namespace leafwright::cut
