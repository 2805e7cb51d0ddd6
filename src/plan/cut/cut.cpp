#include "plan/cut/cut.h"

#include "plan/cut/dive.h"
#include "plan/cut/layout.h"
#include "plan/cut/programme.h"
#include "plan/cut/prove.h"
#include "plan/cut/relax.h"
#include "plan/cut/shrink.h"
#include "plan/cut/words.h"

#include <algorithm>
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
  std::int64_t steps = 300'000;
  ProofEffort whole;
  ProofEffort part;
  part.entries = 8'000;
  part.columns = 600;
  part.nodes = 500;
  std::uint64_t number = 0;
  for (int round = 0; !search.finished(); ++round) {
    const double left = search.budget.seconds_left();
    search.doing = "completing whole sheets";
    part.seconds = std::min(left * 0.2, 0.3);
    for (int k = 0; k < 1; ++k, ++number) {
      relaxation.solve(search.demand, none, true, 100000);
      if (search.finished()) return;
      complete_floors(search, relaxation, number, part);
      if (search.finished()) return;
    }
    if (round % 4 == 0) {
      search.doing = "listing the patterns that could do better";
      relaxation.solve(search.demand, none, true, 100000);
      whole.seconds = left * 0.3;
      prove(search, relaxation, whole);
      if (search.finished()) return;
    }
    search.doing = "repacking";
    while (shrink(search, number, steps)) {
      if (search.finished()) return;
    }
    search.doing = "rounding";
    for (int k = 0; k < 8; ++k, ++number) {
      DiveRule rule;
      rule.shuffle = number + 1;
      rule.pack = k == 0;
      dive(search, relaxation, rule);
      if (search.finished()) return;
    }
    steps = std::min<std::int64_t>(steps * 3 / 2, 64'000'000);
    if (round % 4 == 3) {
      whole.entries = std::min<std::int64_t>(whole.entries * 4, 1'000'000);
      whole.nodes *= 4;
    }
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
