#include "plan/cut/cut.h"

#include "plan/cut/dive.h"
#include "plan/cut/layout.h"
#include "plan/cut/programme.h"
#include "plan/cut/relax.h"
#include "plan/cut/shrink.h"
#include "plan/cut/words.h"

#include <algorithm>
#include <numeric>
#include <set>
#include <tuple>

namespace leafwright::cut {

namespace {

void search_plan(Search& search) {
  search.doing = "placing one by one";
  first_plan(search);
  if (search.finished()) return;
  search.doing = "finding patterns";
  Relaxation relaxation(search);
  const std::vector<std::int64_t> none(search.normal.stocks.size(), 0);
  relaxation.solve(search.demand, none, true, 100000);
  search.statistics.relaxation = relaxation.value();
  if (search.finished()) return;
  search.doing = "rounding";
  dive(search, relaxation, {});
  if (search.finished()) return;
  std::int64_t steps = 1'000'000;
  for (std::uint64_t round = 1; !search.finished(); ++round) {
    search.doing = "repacking";
    while (shrink(search, round, steps)) {
      if (search.finished()) return;
    }
    search.doing = "rounding";
    DiveRule rule;
    rule.shuffle = round;
    dive(search, relaxation, rule);
    if (search.finished()) return;
    if (round == 1) {
      search.doing = "choosing among the patterns";
      std::vector<int> all(static_cast<std::size_t>(search.pool.size()));
      std::iota(all.begin(), all.end(), 0);
      ++search.statistics.programmes;
      const ProgrammeResult result = solve_programme(search, all, search.demand, search.best_cost,
                                                     2000, search.budget.seconds_left() * 0.2);
      if (!result.sheets.empty()) search.offer(result.sheets);
    }
    steps = std::min<std::int64_t>(steps * 2, 64'000'000);
  }
}

bool one_price(const Job& job) {
  return std::all_of(job.sheets.begin(), job.sheets.end(), [&](const SheetType& s) {
    return s.price == job.sheets.front().price && s.price > 0;
  });
}

} // namespace

Plan plan(const Job& job, const Effort& effort) {
  Budget budget(effort);
  Plan result;
  const Normal normal = normalise(job);
  result.findings = normal.findings;
  if (!result.findings.empty() || normal.types.empty()) {
    result.proven = result.findings.empty();
    return result;
  }
  Search search(normal, budget, result.statistics);
  search.raise_bound(area_bound(job, normal));
  search_plan(search);
  result.patterns = lay_out(job, search, search.best);
  for (const Pattern& pattern : result.patterns) {
    result.sheets += pattern.count;
    result.cost += pattern.count * job.sheets[static_cast<std::size_t>(pattern.sheet)].price;
  }
  result.bound_cost = std::min(search.bound, result.cost);
  if (one_price(job)) {
    const std::int64_t price = job.sheets.front().price;
    result.bound_sheets = (result.bound_cost + price - 1) / price;
  }
  result.proven = result.cost <= result.bound_cost;
  result.words = proof_in_words(result, job);
  result.stopped = result.proven ? StoppedBy::Nothing : budget.why();
  result.statistics.columns = search.pool.size();
  result.statistics.work = budget.work();
  result.statistics.seconds = budget.seconds();
  return result;
}

Length largest_offcut(const Plan& plan) {
  Length most = 0;
  for (const Pattern& pattern : plan.patterns) {
    for (const Part& part : pattern.parts) {
      if (part.kind == PartKind::Leftover) most = std::max(most, part.width * part.height);
    }
  }
  return most;
}

int fence_settings(const Pattern& pattern) {
  std::set<std::pair<Direction, Length>> settings;
  for (const Part& part : pattern.parts) {
    if (part.kind == PartKind::Cut) settings.emplace(part.direction, part.position);
  }
  return static_cast<int>(settings.size());
}

} // namespace leafwright::cut
