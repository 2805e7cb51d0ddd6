#include "plan/cut/master.h"

#include <coin/ClpSimplex.hpp>

#include <algorithm>

namespace leafwright::cut {

std::pair<int, bool> Pool::add(Column column) {
  const auto [at, fresh] = index_.try_emplace({column.stock, column.counts}, size());
  if (fresh) columns_.push_back(std::move(column));
  return {at->second, fresh};
}

struct Master::Lp {
  ClpSimplex clp;
  std::vector<Stock> stocks;
  std::vector<int> stock_row; ///< -1: unlimited
  int types = 0;
  int first_column = 0; ///< the ones before buy missing pieces at a forbidding price
  bool primal = true;
};

namespace {

double forbidding_price(std::span<const Stock> stocks) {
  std::int64_t dearest = 1;
  for (const Stock& stock : stocks) dearest = std::max(dearest, stock.price);
  return 100.0 * static_cast<double>(dearest);
}

} // namespace

Master::Master(std::span<const Stock> stocks, std::span<const std::int64_t> demand)
    : lp_(std::make_unique<Lp>()) {
  Lp& lp = *lp_;
  lp.clp.setLogLevel(0);
  lp.clp.setPerturbation(100); // none: degenerate, but small
  lp.stocks.assign(stocks.begin(), stocks.end());
  lp.types = static_cast<int>(demand.size());
  for (std::int64_t d : demand) lp.clp.addRow(0, nullptr, nullptr, static_cast<double>(d));
  for (const Stock& stock : stocks) {
    lp.stock_row.push_back(stock.limit < 0 ? -1 : lp.clp.numberRows());
    if (stock.limit >= 0) {
      lp.clp.addRow(0, nullptr, nullptr, -COIN_DBL_MAX, static_cast<double>(stock.limit));
    }
  }
  const double price = forbidding_price(stocks);
  for (int t = 0; t < lp.types; ++t) {
    const double one = 1;
    lp.clp.addColumn(1, &t, &one, 0, COIN_DBL_MAX, price);
  }
  lp.first_column = lp.types;
}

Master::~Master() = default;

void Master::add(const Column& column) {
  std::vector<int> rows;
  std::vector<double> elements;
  for (const auto& [type, copies] : column.counts) {
    rows.push_back(type);
    elements.push_back(copies);
  }
  const auto stock = static_cast<std::size_t>(column.stock);
  if (lp_->stock_row[stock] >= 0) {
    rows.push_back(lp_->stock_row[stock]);
    elements.push_back(1);
  }
  lp_->clp.addColumn(static_cast<int>(rows.size()), rows.data(), elements.data(), 0, COIN_DBL_MAX,
                     static_cast<double>(lp_->stocks[stock].price));
}

void Master::set_demand(std::span<const std::int64_t> demand,
                        std::span<const std::int64_t> stock_used) {
  for (int t = 0; t < lp_->types; ++t) {
    lp_->clp.setRowLower(
        t, static_cast<double>(std::max<std::int64_t>(0, demand[static_cast<std::size_t>(t)])));
  }
  for (std::size_t s = 0; s < lp_->stocks.size(); ++s) {
    if (lp_->stock_row[s] < 0) continue;
    const std::int64_t left = lp_->stocks[s].limit - stock_used[s];
    lp_->clp.setRowUpper(lp_->stock_row[s], static_cast<double>(std::max<std::int64_t>(0, left)));
  }
  lp_->primal = false;
}

int Master::solve() {
  // New columns keep the basis primal feasible; new right-hand sides keep it dual feasible.
  if (lp_->primal) {
    lp_->clp.primal(1);
  } else {
    lp_->clp.dual();
  }
  lp_->primal = true;
  return lp_->clp.numberIterations();
}

double Master::shortage() const {
  double sum = 0;
  const double* x = lp_->clp.primalColumnSolution();
  for (int t = 0; t < lp_->types; ++t) sum += std::max(0.0, x[t]);
  return sum;
}

std::vector<int> Master::short_types() const {
  std::vector<int> types;
  const double* x = lp_->clp.primalColumnSolution();
  for (int t = 0; t < lp_->types; ++t) {
    if (x[t] > 1e-6) types.push_back(t);
  }
  return types;
}

double Master::value() const {
  return lp_->clp.objectiveValue() - shortage() * forbidding_price(lp_->stocks);
}

std::vector<double> Master::amounts() const {
  const double* x = lp_->clp.primalColumnSolution();
  std::vector<double> result(x + lp_->first_column, x + lp_->clp.numberColumns());
  for (double& value : result) value = std::max(0.0, value);
  return result;
}

std::vector<double> Master::prices() const {
  const double* dual = lp_->clp.dualRowSolution();
  std::vector<double> result(dual, dual + lp_->types);
  for (double& value : result) value = std::max(0.0, value);
  return result;
}

std::vector<int> Master::basis() const {
  std::vector<int> result;
  const ClpSimplex& clp = lp_->clp;
  for (int c = 0; c < clp.numberColumns(); ++c) {
    if (clp.getColumnStatus(c) != ClpSimplex::basic) continue;
    // A piece bought at a forbidding price is the surplus with its sign turned.
    result.push_back(c < lp_->first_column ? -1 - c : c - lp_->first_column);
  }
  for (int t = 0; t < lp_->types; ++t) {
    if (clp.getRowStatus(t) == ClpSimplex::basic) result.push_back(-1 - t);
  }
  return result;
}

std::vector<double> Master::stock_prices() const {
  std::vector<double> result(lp_->stocks.size(), 0.0);
  for (std::size_t s = 0; s < result.size(); ++s) {
    if (lp_->stock_row[s] >= 0) {
      result[s] = std::max(0.0, -lp_->clp.dualRowSolution()[lp_->stock_row[s]]);
    }
  }
  return result;
}

} // namespace leafwright::cut
