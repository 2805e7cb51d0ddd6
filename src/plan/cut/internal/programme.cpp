#include "plan/cut/internal/programme.h"

#include "plan/cut/internal/search.h"

#include <algorithm>
#include <cmath>
#include <coin/CbcEventHandler.hpp>
#include <coin/CbcModel.hpp>
#include <coin/CbcSolver.hpp>
#include <coin/ClpEventHandler.hpp>
#include <coin/ClpSimplex.hpp>
#include <coin/CoinPackedMatrix.hpp>
#include <coin/OsiClpSolverInterface.hpp>
#include <string>

namespace leafwright::cut {

namespace {

void load(OsiClpSolverInterface& osi, const Search& search, std::span<const int> columns,
          std::span<const std::int64_t> demand) {
  const auto& stocks = search.normal.stocks;
  const int types = static_cast<int>(demand.size());
  std::vector<int> stock_row(stocks.size(), -1);
  int rows = types;
  for (std::size_t s = 0; s < stocks.size(); ++s) {
    if (stocks[s].limit >= 0) stock_row[s] = rows++;
  }
  std::vector<double> lower(static_cast<std::size_t>(rows), -COIN_DBL_MAX);
  std::vector<double> upper(static_cast<std::size_t>(rows), COIN_DBL_MAX);
  for (std::size_t t = 0; t < demand.size(); ++t) lower[t] = static_cast<double>(demand[t]);
  for (std::size_t s = 0; s < stocks.size(); ++s) {
    if (stock_row[s] >= 0) {
      upper[static_cast<std::size_t>(stock_row[s])] = static_cast<double>(stocks[s].limit);
    }
  }
  CoinPackedMatrix matrix(true, 0, 0);
  matrix.setDimensions(rows, 0);
  std::vector<double> cost;
  std::vector<double> most;
  for (int index : columns) {
    const Column& column = search.pool[index];
    const auto stock = static_cast<std::size_t>(column.stock);
    CoinPackedVector vector;
    double useful = 0;
    for (const auto& [type, copies] : column.counts) {
      const auto d = static_cast<double>(demand[static_cast<std::size_t>(type)]);
      if (d <= 0) continue;
      vector.insert(type, copies);
      useful = std::max(useful, std::ceil(d / copies));
    }
    if (stock_row[stock] >= 0) vector.insert(stock_row[stock], 1);
    matrix.appendCol(vector);
    cost.push_back(static_cast<double>(stocks[stock].price));
    most.push_back(useful);
  }
  const std::vector<double> zero(columns.size(), 0.0);
  osi.loadProblem(matrix, zero.data(), most.data(), cost.data(), lower.data(), upper.data());
  for (int c = 0; c < static_cast<int>(columns.size()); ++c) osi.setInteger(c);
}

// CBC's own driver, which adds preprocessing, cuts and heuristics to the plain tree search.
int quiet(CbcModel* /*model*/, int /*where*/) { return 0; }

// Pivots cost what the columns cost to price (measured, in nanoseconds of one machine).
std::int64_t steps_taken(const CbcModel& model, std::size_t columns) {
  return static_cast<std::int64_t>(model.getIterationCount()) *
         static_cast<std::int64_t>(columns * 10 + 28'000);
}

// Stops the solver by its own count of pivots.
class Watch : public CbcEventHandler {
 public:
  Watch(Budget& budget, std::int64_t steps, std::size_t columns, bool& stopped)
      : budget_(&budget), steps_(steps), columns_(columns), stopped_(&stopped) {}

  CbcEventHandler* clone() const override { return new Watch(*this); }
  CbcAction event(CbcEvent /*what*/) override {
    const bool enough = model_ != nullptr && steps_taken(*model_, columns_) > steps_;
    if (!enough && !budget_->hurried()) return noAction;
    *stopped_ = true;
    return stop;
  }

 private:
  Budget* budget_;
  std::int64_t steps_;
  std::size_t columns_;
  bool* stopped_;
};

// The solver looks at its clock between nodes only; this one also stops a linear programme under
// way. What comes of a stopped one is never believed.
class Brake : public ClpEventHandler {
 public:
  explicit Brake(Budget& budget) : budget_(&budget) {}

  ClpEventHandler* clone() const override { return new Brake(*this); }
  int event(Event /*what*/) override {
    constexpr int go_on = -1;
    constexpr int stopped = 5;
    if (!hurried_ && ++events_ % 64 == 0) hurried_ = budget_->hurried();
    return hurried_ ? stopped : go_on;
  }

 private:
  Budget* budget_;
  int events_ = 0;
  bool hurried_ = false;
};

void run(CbcModel& model, double cutoff, int nodes, double seconds, Manner manner) {
  const std::string node_text = std::to_string(nodes);
  const std::string second_text = std::to_string(std::max(0.01, seconds));
  const std::string cutoff_text = std::to_string(cutoff);
  std::vector<const char*> arguments = {"cut",
                                        "-log",
                                        "0",
                                        "-slog",
                                        "0",
                                        "-cutoff",
                                        cutoff_text.c_str(),
                                        "-maxNodes",
                                        node_text.c_str(),
                                        "-seconds",
                                        second_text.c_str()};
  if (manner == Manner::Find) {
    for (const char* word : {"-cuts", "off", "-preprocess", "off", "-nodeStrategy", "depth"}) {
      arguments.push_back(word);
    }
  }
  arguments.push_back("-solve");
  arguments.push_back("-quit");
  CbcSolverUsefulData data;
  data.noPrinting_ = true;
  CbcMain0(model, data);
  CbcMain1(static_cast<int>(arguments.size()), arguments.data(), model, quiet, data);
}

} // namespace

ProgrammeResult solve_programme(const Search& search, std::span<const int> columns,
                                std::span<const std::int64_t> demand, std::int64_t cutoff,
                                int nodes, std::int64_t steps, Manner manner) {
  ProgrammeResult result;
  if (columns.empty()) return result;
  OsiClpSolverInterface osi;
  osi.messageHandler()->setLogLevel(0);
  load(osi, search, columns, demand);
  const Brake brake(search.budget);
  osi.getModelPtr()->passInEventHandler(&brake);
  CbcModel model(osi);
  model.setLogLevel(0);
  const auto step = static_cast<double>(price_step(search.normal.stocks));
  const double limit = cutoff < 0 ? 1e30 : static_cast<double>(cutoff) - step + 0.001 * step;
  bool stopped = false;
  const Watch watch(search.budget, steps, columns.size(), stopped);
  model.passInEventHandler(&watch);
  const double begin = search.budget.seconds();
  const double seconds = search.budget.seconds_left();
  run(model, limit, nodes, seconds, manner);
  const bool optimal = model.isProvenOptimal();
  const bool infeasible = model.isProvenInfeasible();
  // Out of time before its first node, the solver calls a programme infeasible.
  const bool in_time = search.budget.seconds() - begin < 0.9 * seconds;
  result.complete = (optimal || infeasible) && in_time && !stopped;
  result.work = steps_taken(model, columns.size()) +
                static_cast<std::int64_t>(columns.size()) * 20'000 + 5'000'000;
  const double* x = model.bestSolution();
  if (x == nullptr || infeasible) return result;
  std::vector<std::int64_t> left(demand.begin(), demand.end());
  for (std::size_t c = 0; c < columns.size(); ++c) {
    const auto count = static_cast<std::int64_t>(std::llround(x[c]));
    if (count <= 0) continue;
    result.sheets.emplace_back(columns[c], count);
    for (const auto& [type, copies] : search.pool[columns[c]].counts) {
      left[static_cast<std::size_t>(type)] -= count * copies;
    }
  }
  // The solver works in floating point; what it says is checked.
  if (std::any_of(left.begin(), left.end(), [](std::int64_t d) { return d > 0; })) {
    result.sheets.clear();
    result.complete = false;
  }
  return result;
}

std::pair<int, bool> Pool::add(Column column) {
  const auto [at, fresh] = index_.try_emplace({column.stock, column.counts}, size());
  if (fresh) columns_.push_back(std::move(column));
  return {at->second, fresh};
}

struct Master::Lp {
  ClpSimplex clp;
  std::vector<StockSize> stocks;
  std::vector<int> stock_row; // -1: unlimited
  int types = 0;
  int first_column = 0; // the ones before buy missing pieces at a forbidding price
  bool primal = true;
};

namespace {

double forbidding_price(std::span<const StockSize> stocks) {
  std::int64_t dearest = 1;
  for (const StockSize& stock : stocks) dearest = std::max(dearest, stock.price);
  return 100.0 * static_cast<double>(dearest);
}

} // namespace

Master::Master(std::span<const StockSize> stocks, std::span<const std::int64_t> demand)
    : lp_(std::make_unique<Lp>()) {
  Lp& lp = *lp_;
  lp.clp.setLogLevel(0);
  lp.clp.setPerturbation(100); // none: degenerate, but small
  lp.stocks.assign(stocks.begin(), stocks.end());
  lp.types = static_cast<int>(demand.size());
  for (std::int64_t d : demand) lp.clp.addRow(0, nullptr, nullptr, static_cast<double>(d));
  for (const StockSize& stock : stocks) {
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
