#pragma once

#include "plan/cut/bound.h"
#include "plan/cut/budget.h"
#include "plan/cut/master.h"
#include "plan/cut/normal.h"

#include <cstdint>
#include <functional>
#include <utility>
#include <vector>

namespace leafwright::cut {

/// Sheets of each pattern: (column of the pool, sheets).
using Sheets = std::vector<std::pair<int, std::int64_t>>;

/// What the parts of the planner share while they work on one job.
struct Search {
  const Normal& normal;
  Budget& budget;
  Statistics& statistics;
  std::vector<std::int64_t> demand;
  Pool pool;
  Sheets best;
  std::int64_t best_cost = -1; ///< -1: no plan yet
  std::int64_t bound = 0;
  const char* doing = "";

  Search(const Normal& n, Budget& b, Statistics& s);
  ~Search();
  Search(const Search&) = delete;
  Search& operator=(const Search&) = delete;
  Search(Search&&) = delete;
  Search& operator=(Search&&) = delete;

  bool proven() const { return best_cost >= 0 && bound >= best_cost; }
  bool finished() { return proven() || budget.out(); }
  /// Takes the plan when it is cheaper than the best; it must cover the demand.
  bool offer(const Sheets& sheets);
  /// The same, and at equal cost when it has fewer patterns.
  bool offer_tidier(const Sheets& sheets);
  void raise_bound(std::int64_t cost);
  void tell() const;

 private:
  std::function<void()> tick_before_;
};

std::int64_t cost_of(const Search& search, const Sheets& sheets);

/// What is still wanted after `sheets`.
std::vector<std::int64_t> remaining(const Search& search, const Sheets& sheets);

} // namespace leafwright::cut
