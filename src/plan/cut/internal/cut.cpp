#include "plan/cut/cut.h"

#include "plan/cut/internal/finish.h"
#include "plan/cut/internal/least_handling.h"
#include "plan/cut/internal/search.h"

#include <algorithm>
#include <set>
#include <utility>

namespace leafwright::cut {

namespace {

bool one_price(const Job& job) {
  return std::all_of(job.sheets.begin(), job.sheets.end(), [&](const SheetType& s) {
    return s.price == job.sheets.front().price && s.price > 0;
  });
}

void sum_up(const Job& job, std::int64_t bound, Plan& plan) {
  for (const Pattern& pattern : plan.patterns) {
    plan.sheets += pattern.count;
    plan.cost += pattern.count * job.sheets[static_cast<std::size_t>(pattern.sheet)].price;
  }
  plan.bound_cost = std::min(bound, plan.cost);
  if (one_price(job)) {
    const std::int64_t price = job.sheets.front().price;
    plan.bound_sheets = (plan.bound_cost + price - 1) / price;
  }
  plan.proven = plan.cost <= plan.bound_cost;
}

// How many sheets would be enough is what a plan without limits says.
void explain_limits(const Job& job, const Effort& effort, Plan& plan) {
  Job free = job;
  free.objective = Objective::FewestSheets;
  for (SheetType& sheet : free.sheets) sheet.limit.reset();
  const Plan enough = leafwright::cut::plan(free, effort);
  std::vector<std::int64_t> used(job.sheets.size(), 0);
  for (const Pattern& pattern : enough.patterns) {
    used[static_cast<std::size_t>(pattern.sheet)] += pattern.count;
  }
  for (std::size_t s = 0; s < used.size(); ++s) {
    const std::int64_t limit = job.sheets[s].limit.value_or(used[s]);
    if (used[s] <= limit) continue;
    JobFault finding;
    finding.kind = FindingKind::TooFewSheets;
    finding.sheet = static_cast<int>(s);
    finding.missing = used[s] - limit;
    plan.findings.push_back(std::move(finding));
  }
}

void explain_rules(const Normal& normal, const std::vector<int>& types, Plan& plan) {
  for (const int type : types) {
    JobFault finding;
    finding.kind = FindingKind::RulesForbid;
    finding.piece = normal.types[static_cast<std::size_t>(type)].pieces.front().first;
    plan.findings.push_back(std::move(finding));
  }
}

bool any_limit(const Normal& normal) {
  return std::any_of(normal.stocks.begin(), normal.stocks.end(),
                     [](const StockSize& stock) { return stock.limit >= 0; });
}

} // namespace

Plan plan(const Job& job, const Effort& effort) {
  Budget budget(effort);
  Plan result;
  const bool handled = job.objective == Objective::LeastHandling;
  const Normal normal = normalise(job);
  result.findings = normal.findings;
  if (!result.findings.empty() || normal.types.empty()) {
    result.proven = result.findings.empty();
    return result;
  }
  Search search(normal, budget, result.statistics);
  search.raise_bound(area_bound(job, normal));
  if (normal.rigid()) search.raise_bound(free_bound(job, budget));
  const std::vector<int> impossible = search_plan(search);
  if (search.best_cost < 0) {
    if (any_limit(normal)) {
      explain_limits(job, effort, result);
    } else {
      explain_rules(normal, impossible, result);
    }
    return result;
  }
  std::vector<Batch> batches = without_surplus(search, search.best);
  enlarge_offcut(search, batches, handled ? 5'000 : 15'000);
  if (handled) batches = least_handling(job, search, std::move(batches));
  result.patterns = lay_out(job, normal, batches);
  const bool settled = search.proven() && budget.why() == StoppedBy::Work;
  result.stopped = settled ? StoppedBy::Nothing : budget.why();
  sum_up(job, search.bound, result);
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
