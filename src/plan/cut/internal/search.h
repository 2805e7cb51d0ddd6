#pragma once

#include "plan/cut/cut.h"
#include "plan/cut/internal/inside.h"
#include "plan/cut/internal/normal.h"

#include <algorithm>
#include <chrono>
#include <cstdint>
#include <functional>
#include <map>
#include <memory>
#include <span>
#include <utility>
#include <vector>

namespace leafwright::cut {

// Well-mixed numbers that are the same on every machine (splitmix64; Steele, Lea, Flood 2014).
class Draw {
 public:
  explicit Draw(std::uint64_t start) : state_(start) {}

  std::uint64_t next() {
    state_ += 0x9e3779b97f4a7c15ULL;
    std::uint64_t x = state_;
    x = (x ^ (x >> 30)) * 0xbf58476d1ce4e5b9ULL;
    x = (x ^ (x >> 27)) * 0x94d049bb133111ebULL;
    return x ^ (x >> 31);
  }
  // 0 to count - 1.
  int below(int count) {
    return static_cast<int>(((next() >> 32) * static_cast<std::uint64_t>(count)) >> 32);
  }
  double unit() { return static_cast<double>(next() >> 11) * 0x1p-53; }

 private:
  std::uint64_t state_;
};

// Counts steps; watches the clock and the caller's stop wish, which alone may end a plan otherwise
// than its work does.
class Budget {
 public:
  explicit Budget(const Effort& effort) : effort_(&effort), begin_(now()) {}

  void spend(std::int64_t work) { work_ += work; }
  std::int64_t work() const { return work_; }
  double seconds() const { return now() - begin_; }
  double seconds_left() const { return effort_->seconds - seconds(); }

  // Once true, stays true.
  bool out() {
    if (why_ != StoppedBy::Nothing) return true;
    if (work_ >= effort_->work) why_ = StoppedBy::Work;
    if (looked() >= effort_->seconds) why_ = StoppedBy::Time;
    if (effort_->stop.stop_requested()) why_ = StoppedBy::Caller;
    return why_ != StoppedBy::Nothing;
  }
  StoppedBy why() const { return why_; }
  // The clock or the caller wants it to end; work spent is not looked at.
  bool hurried() { return looked() >= effort_->seconds || effort_->stop.stop_requested(); }
  // Called now and then while the clock is looked at: to tell how far the plan is. Returns the one
  // before.
  std::function<void()> on_tick(std::function<void()> tick) {
    return std::exchange(tick_, std::move(tick));
  }
  const Effort& effort() const { return *effort_; }

 private:
  double now() const {
    if (effort_->clock) return effort_->clock();
    return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch())
        .count();
  }

  double looked() {
    constexpr double pause = 0.2;
    const double at = seconds();
    if (effort_->progress && tick_ && at >= ticked_ + pause) {
      ticked_ = at;
      tick_();
    }
    return at;
  }

  const Effort* effort_;
  std::function<void()> tick_;
  double ticked_ = 0;
  double begin_;
  std::int64_t work_ = 0;
  StoppedBy why_ = StoppedBy::Nothing;
};

// Least cost any plan can have, shown by piece values: if no pattern of stock s is worth more than
// `most[s]`, then a plan that covers the demand costs at least
//   (sum of demand x value - sum over limited stocks of limit x excess) / scale
// (Farley 1990, with limits by Lagrange). Whole numbers throughout, rounded up at the end, so the
// values may come from anywhere, round-off included.
std::int64_t value_bound(std::span<const StockSize> stocks, std::span<const std::int64_t> demand,
                         std::span<const std::int64_t> value, std::span<const std::int64_t> most);

// The same with the true areas as values: always at hand.
std::int64_t area_bound(const Job& job, const Normal& normal);

// Costs are multiples of this.
std::int64_t price_step(std::span<const StockSize> stocks);

// a / b rounded up, b > 0.
__extension__ using Wide = __int128;
Wide divided_up(Wide a, Wide b);

// Patterns found so far, each once.
class Pool {
 public:
  // Index of the column, and whether it is new.
  std::pair<int, bool> add(Column column);
  const Column& operator[](int index) const { return columns_[static_cast<std::size_t>(index)]; }
  int size() const { return static_cast<int>(columns_.size()); }

 private:
  std::vector<Column> columns_;
  std::map<std::pair<int, Counts>, int> index_;
};

// The covering linear programme: sheets of each pattern, at least the demand of each type, at most
// the limit of each stock, least cost. Solved by CLP, warm from one call to the next. Its numbers
// guide the search only; every bound is recomputed in integers (search.cpp).
class Master {
 public:
  Master(std::span<const StockSize> stocks, std::span<const std::int64_t> demand);
  ~Master();
  Master(const Master&) = delete;
  Master& operator=(const Master&) = delete;
  Master(Master&&) = delete;
  Master& operator=(Master&&) = delete;

  void add(const Column& column); // in pool order
  void set_demand(std::span<const std::int64_t> demand, std::span<const std::int64_t> stock_used);
  int solve(); // the pivots it took

  double value() const;                     // shortage excluded
  double shortage() const;                  // pieces the columns cannot supply within the limits
  std::vector<int> short_types() const;     // types behind the shortage
  std::vector<double> amounts() const;      // per column
  std::vector<double> prices() const;       // dual value of one piece of each type, not negative
  std::vector<double> stock_prices() const; // what one sheet less of a limited stock costs
  // The basis of the last solution: columns of the pool, and -1 - t where the surplus of type t
  // takes the place of one.
  std::vector<int> basis() const;

 private:
  struct Lp;
  std::unique_ptr<Lp> lp_;
};

// Sheets of each pattern: (column of the pool, sheets).
using Sheets = std::vector<std::pair<int, std::int64_t>>;

// What the parts of the planner share while they work on one job.
struct Search {
  const Normal& normal;
  Budget& budget;
  Statistics& statistics;
  std::vector<std::int64_t> demand;
  Pool pool;
  Sheets best;
  std::int64_t best_cost = -1; // -1: no plan yet
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
  // Takes the plan when it is cheaper than the best; it must cover the demand.
  bool offer(const Sheets& sheets);
  // The same, and at equal cost when it has fewer patterns.
  bool offer_tidier(const Sheets& sheets);
  void raise_bound(std::int64_t cost);
  void tell() const;

 private:
  std::function<void()> tick_before_;
};

std::int64_t cost_of(const Search& search, const Sheets& sheets);

// What is still wanted after `sheets`.
std::vector<std::int64_t> remaining(const Search& search, const Sheets& sheets);

// Relaxation, rounding, local search and proof in turn until the best plan is proven or the effort
// is spent. Types that no pattern can supply are returned (rules or limits forbid them). Unless
// the sheets are only `counted`, a proven plan is made tidier after that.
std::vector<int> search_plan(Search& search, bool counted = false);

// A bound for the job without its smallest strip and stages: whatever keeps the rules obeys it
// too.
std::int64_t free_bound(const Job& job, Budget& budget);

} // namespace leafwright::cut
