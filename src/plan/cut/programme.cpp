#include "plan/cut/programme.h"

#include <coin/CbcEventHandler.hpp>
#include <coin/CbcModel.hpp>
#include <coin/CbcSolver.hpp>
#include <coin/ClpEventHandler.hpp>
#include <coin/CoinPackedMatrix.hpp>
#include <coin/OsiClpSolverInterface.hpp>

#include <algorithm>
#include <cmath>
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

} // namespace leafwright::cut
