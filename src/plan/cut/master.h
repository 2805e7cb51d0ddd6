#pragma once

#include "plan/cut/slice.h"

#include <cstdint>
#include <map>
#include <memory>
#include <span>
#include <utility>
#include <vector>

namespace leafwright::cut {

/// Patterns found so far, each once.
class Pool {
 public:
  /// Index of the column, and whether it is new.
  std::pair<int, bool> add(Column column);
  const Column& operator[](int index) const { return columns_[static_cast<std::size_t>(index)]; }
  int size() const { return static_cast<int>(columns_.size()); }

 private:
  std::vector<Column> columns_;
  std::map<std::pair<int, Counts>, int> index_;
};

/// The covering linear programme: sheets of each pattern, at least the demand of each type, at most
/// the limit of each stock, least cost. Solved by CLP, warm from one call to the next. Its numbers
/// guide the search only; every bound is recomputed in integers (bound.h).
class Master {
 public:
  Master(std::span<const Stock> stocks, std::span<const std::int64_t> demand);
  ~Master();
  Master(const Master&) = delete;
  Master& operator=(const Master&) = delete;
  Master(Master&&) = delete;
  Master& operator=(Master&&) = delete;

  void add(const Column& column); ///< in pool order
  void set_demand(std::span<const std::int64_t> demand, std::span<const std::int64_t> stock_used);
  int solve(); ///< the pivots it took

  double value() const;                     ///< shortage excluded
  double shortage() const;                  ///< pieces the columns cannot supply within the limits
  std::vector<int> short_types() const;     ///< types behind the shortage
  std::vector<double> amounts() const;      ///< per column
  std::vector<double> prices() const;       ///< dual value of one piece of each type, not negative
  std::vector<double> stock_prices() const; ///< what one sheet less of a limited stock costs
  /// The basis of the last solution: columns of the pool, and -1 - t where the surplus of type t
  /// takes the place of one.
  std::vector<int> basis() const;

 private:
  struct Lp;
  std::unique_ptr<Lp> lp_;
};

} // namespace leafwright::cut
