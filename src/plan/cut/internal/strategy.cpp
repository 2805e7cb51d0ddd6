#include "plan/cut/internal/search.h"

#include "plan/cut/internal/closing.h"
#include "plan/cut/internal/lister.h"
#include "plan/cut/internal/programme.h"
#include "plan/cut/internal/relax.h"
#include "plan/cut/internal/rounding.h"
#include "plan/cut/internal/ruled.h"
#include "plan/cut/internal/shrink.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace leafwright::cut {

namespace {

bool within_limits(const Search& search, const Sheets& sheets) {
  std::vector<std::int64_t> used(search.normal.stocks.size(), 0);
  for (const auto& [column, count] : sheets) {
    used[static_cast<std::size_t>(search.pool[column].stock)] += count;
  }
  for (std::size_t s = 0; s < used.size(); ++s) {
    const std::int64_t limit = search.normal.stocks[s].limit;
    if (limit >= 0 && used[s] > limit) return false;
  }
  return true;
}

// Every amount rounded up: rarely good, always there.
void round_up(Search& search, const Relaxation& relaxation) {
  if (relaxation.shortage() > 1e-6) return;
  Sheets sheets;
  const std::vector<double> amounts = relaxation.amounts();
  for (std::size_t i = 0; i < amounts.size(); ++i) {
    const auto count = static_cast<std::int64_t>(std::ceil(amounts[i] - 1e-9));
    if (count > 0) sheets.emplace_back(static_cast<int>(i), count);
  }
  const std::vector<std::int64_t> left = remaining(search, sheets);
  const bool covers = std::all_of(left.begin(), left.end(), [](std::int64_t d) { return d <= 0; });
  if (covers && within_limits(search, sheets)) search.offer(sheets);
}

class Strategy {
 public:
  Strategy(Search& search, Relaxation& relaxation) : search_(search), relaxation_(relaxation) {
    part_.entries = 8'000;
    part_.columns = 600;
    // Many short tries from other sheets find more than few long ones.
    part_.nodes = 250;
    part_.steps = 100'000'000;
  }

  void run() {
    if (search_.normal.rigid()) propose_rigid(search_, 1);
    search_.doing = "rounding";
    refine();
    dive(search_, relaxation_, {});
    for (int round = 0; !search_.finished(); ++round) {
      search_.tell();
      const std::int64_t before = search_.budget.work();
      if (closing() || (round == 0 && closing())) return;
      if (rounding(round == 0 ? 3 : 1)) return;
      if (completing()) return;
      if (round % 3 == 0 && proving()) return;
      if (repacking(search_.budget.work() - before)) return;
      if (round % 2 == 0 && choosing(round)) return;
      steps_ = std::min<std::int64_t>(steps_ * 3 / 2, 64'000'000);
      if (round % 3 == 2) {
        whole_.entries = std::min<std::int64_t>(whole_.entries * 4, 1'000'000);
        whole_.nodes = std::min(whole_.nodes, 500'000) * 4;
        whole_.steps = std::min<std::int64_t>(whole_.steps * 4, 20'000'000'000);
      }
    }
  }

 private:
  // The bound may be reached long before the relaxation is: then there are better patterns yet.
  void refine() {
    const std::vector<std::int64_t> none(search_.normal.stocks.size(), 0);
    relaxation_.solve(search_.demand, none, Aim::Guide, 100000);
    search_.statistics.relaxation = relaxation_.value();
  }

  void solve_whole() {
    const std::vector<std::int64_t> none(search_.normal.stocks.size(), 0);
    relaxation_.solve(search_.demand, none, Aim::Bound, 100000);
  }

  // Needs amounts of several sheets each, so that whole numbers can be chosen around them.
  bool closing() {
    double dearest = 1;
    for (const StockSize& stock : search_.normal.stocks) {
      dearest = std::max(dearest, static_cast<double>(stock.price));
    }
    if (static_cast<double>(search_.bound) < dearest * static_cast<double>(search_.demand.size())) {
      return false;
    }
    search_.doing = "closing the gap";
    close_gap(search_, relaxation_, ++closings_, closing_);
    closing_.list.entries = std::min<std::int64_t>(closing_.list.entries * 3, 400'000);
    closing_.list.columns = std::min<std::size_t>(closing_.list.columns * 3, 60'000);
    closing_.stored = std::min<std::uint32_t>(closing_.stored * 3, 700'000);
    closing_.tries = std::min<std::int64_t>(closing_.tries * 3, 40'000'000);
    return search_.finished();
  }

  bool rounding(int times) {
    search_.doing = "rounding";
    for (int k = 0; k < times && !search_.finished(); ++k) {
      DiveRule rule;
      rule.shuffle = ++number_;
      rule.pack = true;
      dive(search_, relaxation_, rule);
    }
    return search_.finished();
  }

  bool completing() {
    search_.doing = "completing whole sheets";
    solve_whole();
    if (search_.finished()) return true;
    complete_floors(search_, relaxation_, completions_++, part_);
    if (completions_ % 4 == 0) {
      part_.entries = std::min<std::int64_t>(part_.entries * 3 / 2, 200'000);
      part_.columns = std::min<std::size_t>(part_.columns * 3 / 2, 6'000);
      part_.nodes = std::min(part_.nodes * 3 / 2, 20'000);
      part_.steps = std::min<std::int64_t>(part_.steps * 3 / 2, 3'000'000'000);
    }
    return search_.finished();
  }

  bool proving() {
    search_.doing = "listing the patterns that could do better";
    solve_whole();
    if (!search_.finished()) prove(search_, relaxation_, whole_);
    return search_.finished();
  }

  // Where the whole plan can be repacked at once, one long walk finds more than many short ones: it
  // gets as much work as all else.
  bool repacking(std::int64_t others) {
    search_.doing = "repacking";
    if (search_.normal.rigid()) propose_rigid(search_, number_ += 24);
    const std::int64_t steps =
        repacked_whole(search_) ? std::max(steps_, others / step_work) : steps_;
    while (!search_.finished() && shrink(search_, ++number_, steps)) {
    }
    if (!search_.finished() && !repacked_whole(search_)) repack_floors(others / step_work);
    return search_.finished();
  }

  // Of a large plan, what the whole sheets of the relaxation leave.
  void repack_floors(std::int64_t steps) {
    solve_whole();
    Sheets taken = floors_of(relaxation_, number_ % 4);
    const std::vector<std::int64_t> none(search_.normal.stocks.size(), 0);
    std::vector<std::int64_t> rest = remaining(search_, taken);
    std::int64_t pieces = 0;
    for (std::int64_t& d : rest) pieces += d = std::max<std::int64_t>(0, d);
    if (pieces > 600) return;
    const Sheets sheets = pack_rest(search_, rest, none,
                                    search_.best_cost - cost_of(search_, taken), ++number_, steps);
    if (sheets.empty()) return;
    taken.insert(taken.end(), sheets.begin(), sheets.end());
    search_.offer(taken);
  }

  // Several stocks have no local search of their own; the integer programme over the pool does
  // most.
  bool choosing(int round) {
    if (search_.normal.stocks.size() == 1 && !search_.normal.rigid()) return false;
    search_.doing = "choosing among the patterns";
    std::vector<int> all(static_cast<std::size_t>(search_.pool.size()));
    std::iota(all.begin(), all.end(), 0);
    ++search_.statistics.programmes;
    const ProgrammeResult result =
        solve_programme(search_, all, search_.demand, search_.best_cost, 500 << std::min(round, 8),
                        100'000'000LL << std::min(round, 8), Manner::Settle);
    search_.budget.spend(result.work);
    if (!result.sheets.empty() && within_limits(search_, result.sheets)) {
      search_.offer(result.sheets);
    }
    return search_.finished();
  }

  Search& search_;
  Relaxation& relaxation_;
  ProofEffort whole_, part_;
  ClosingEffort closing_{{40'000, 5'000, 0, 0}, 60'000, 600'000};
  std::uint64_t closings_ = 0;
  std::int64_t steps_ = 300'000;
  std::uint64_t number_ = 0;
  std::uint64_t completions_ = 0;
};

// One grid after the other for each type: a plan at once, whatever happens later.
void plain_plan(Search& search) {
  if (search.normal.rigid()) return;
  Sheets sheets;
  for (std::size_t t = 0; t < search.demand.size(); ++t) {
    int best = -1;
    double best_cost = 0;
    for (int index = 0; index < search.pool.size(); ++index) {
      const Column& column = search.pool[index];
      const StockSize& stock = search.normal.stocks[static_cast<std::size_t>(column.stock)];
      if (column.counts.size() != 1 || column.counts[0].first != static_cast<int>(t)) continue;
      if (stock.limit >= 0) continue;
      const double cost = static_cast<double>(stock.price) / column.counts[0].second;
      if (best < 0 || cost < best_cost) {
        best = index;
        best_cost = cost;
      }
    }
    if (best < 0) return;
    const std::int64_t copies = search.pool[best].counts[0].second;
    sheets.emplace_back(best, (search.demand[t] + copies - 1) / copies);
  }
  search.offer(sheets);
}

// A fair plan for little work, should the brake come soon.
void quick_plan(Search& search, Relaxation& relaxation) {
  if (search.finished()) return;
  DiveRule rule;
  rule.round_up = 0.6;
  rule.rounds = 1;
  rule.pack = false;
  rule.ending.entries = 0;
  dive(search, relaxation, rule);
}

// Few patterns are the third wish: plain roundings repeat patterns more than the local search does.
void tidy(Search& search, Relaxation& relaxation) {
  if (search.best_cost < 0) return;
  search.doing = "tidying up";
  const std::int64_t before = search.budget.work();
  for (std::uint64_t k = 0; k < 4 && !search.budget.out(); ++k) {
    if (search.budget.work() - before > 60'000'000) return;
    DiveRule rule;
    rule.tidy = true;
    rule.pack = false;
    rule.rounds = 10;
    rule.shuffle = k;
    dive(search, relaxation, rule);
  }
}

} // namespace

std::vector<int> search_plan(Search& search, bool counted) {
  Relaxation relaxation(search);
  plain_plan(search);
  search.doing = "placing one by one";
  if (!search.proven()) first_plan(search);
  if (search.budget.out() || (counted && search.proven())) return {};
  search.doing = "finding patterns";
  const std::vector<std::int64_t> none(search.normal.stocks.size(), 0);
  relaxation.solve(search.demand, none, Aim::Bound, 100000);
  search.statistics.relaxation = relaxation.value();
  round_up(search, relaxation);
  if (relaxation.shortage() > 1e-6) return relaxation.short_types();
  quick_plan(search, relaxation);
  if (!search.finished()) Strategy(search, relaxation).run();
  if (!counted) tidy(search, relaxation);
  return {};
}

std::int64_t free_bound(const Job& job, Budget& budget) {
  Job free = job;
  free.rules.smallest_strip = 0;
  free.rules.stages = 0;
  const Normal normal = normalise(free);
  if (!normal.findings.empty() || normal.types.empty()) return 0;
  Statistics statistics;
  Search search(normal, budget, statistics);
  Relaxation relaxation(search);
  const std::vector<std::int64_t> none(normal.stocks.size(), 0);
  relaxation.solve(search.demand, none, Aim::Bound, 100000);
  return search.bound;
}

} // namespace leafwright::cut
