#include "plan/cut/internal/lister.h"

#include <algorithm>

namespace leafwright::cut {

namespace {

constexpr std::int64_t most_outside_work = 3'000'000'000;
constexpr std::int64_t enumeration_step = 8;

} // namespace

std::int64_t value_of(const Column& column, const Scale& scale) {
  std::int64_t sum = 0;
  for (const auto& [type, copies] : column.counts) {
    sum += std::int64_t{copies} * scale.values[static_cast<std::size_t>(type)];
  }
  return sum;
}

bool choose_unit(const Search& search, Scale& scale) {
  const auto& stocks = search.normal.stocks;
  for (std::size_t s = 0; s < stocks.size(); ++s) {
    if (stocks[s].price <= 0 || scale.most[s] <= 0) continue;
    const auto dearer = [&] {
      return Wide{scale.most[s]} * scale.unit_price > Wide{scale.unit_value} * stocks[s].price;
    };
    if (scale.unit_value == 0 || dearer()) {
      scale.unit_value = scale.most[s];
      scale.unit_price = stocks[s].price;
    }
  }
  return scale.unit_value > 0;
}

Wide slack(std::span<const std::int64_t> demand, const Scale& scale, std::int64_t cost) {
  Wide total = 0;
  for (std::size_t t = 0; t < demand.size(); ++t) total += Wide{demand[t]} * scale.values[t];
  return Wide{cost} * scale.unit_value - total * scale.unit_price;
}

Wide given_away(const Search& search, const Scale& scale, int stock, std::int64_t value) {
  return Wide{search.normal.stocks[static_cast<std::size_t>(stock)].price} * scale.unit_value -
         Wide{value} * scale.unit_price;
}

Scale scale_of(const Search& search, std::span<const double> prices, Worthless worthless) {
  Scale scale;
  scale.values = scaled_values(prices, search.normal).values;
  if (worthless == Worthless::Listed) {
    for (Value& v : scale.values) v = std::max<Value>(v, 1);
  }
  return scale;
}

std::int64_t shown_bound(const Search& search, const Question& question, const Scale& scale) {
  const std::vector<std::int64_t> wide(scale.values.begin(), scale.values.end());
  return value_bound(search.normal.stocks, question.demand, wide, scale.most);
}

Answer Lister::prepare() {
  const Normal& normal = search_.normal;
  for (std::size_t s = 0; s < normal.stocks.size(); ++s) {
    const StockSize& stock = normal.stocks[s];
    insides_.emplace_back(stock.width, stock.height, normal.shapes[s], question_.demand,
                          scale_.values, 0);
    search_.budget.spend(insides_.back().work() / 8);
    scale_.most.push_back(insides_.back().best());
  }
  const std::int64_t shown = shown_bound(search_, question_, scale_);
  if (question_.whole) search_.raise_bound(shown);
  if (shown > question_.cost) return Answer::No;
  if (!choose_unit(search_, scale_)) return Answer::Unknown;
  for (const Inside& inside : insides_) {
    if (outside_work(inside) > most_outside_work) return Answer::Unknown;
    outsides_.emplace_back(inside);
    search_.budget.spend(outside_work(inside));
  }
  return Answer::Yes;
}

bool Lister::list(double share, const ProofEffort& effort, std::vector<Column>& columns) {
  const Normal& normal = search_.normal;
  const Wide gap = slack(question_.demand, scale_, question_.cost);
  columns.clear();
  exhaustive_ = true;
  for (std::size_t s = 0; s < normal.stocks.size(); ++s) {
    // price x F - value x P <= gap
    const Wide part = share < 1 ? static_cast<Wide>(static_cast<double>(gap) * share) : gap;
    const Wide least =
        divided_up(Wide{normal.stocks[s].price} * scale_.unit_value - part, scale_.unit_price);
    std::vector<OrientedType> shapes = normal.shapes[s];
    std::erase_if(shapes, [&](const OrientedType& shape) {
      return scale_.values[static_cast<std::size_t>(shape.type)] <= 0;
    });
    Enumeration found =
        enumerate(insides_[s], outsides_[s], shapes, question_.demand, scale_.values,
                  static_cast<std::int64_t>(std::max<Wide>(1, least)), effort.entries,
                  [&] { return search_.budget.hurried(); });
    search_.budget.spend(found.work * enumeration_step);
    search_.statistics.enumerated += found.entries;
    if (!found.complete || columns.size() + found.slices.size() > effort.columns) return false;
    exhaustive_ = exhaustive_ && all_types_ && found.exhaustive;
    for (Slice& slice : found.slices) {
      Column column;
      column.stock = static_cast<int>(s);
      column.counts = counts_of(slice);
      column.slice = std::move(slice);
      columns.push_back(std::move(column));
    }
  }
  return true;
}

} // namespace leafwright::cut
