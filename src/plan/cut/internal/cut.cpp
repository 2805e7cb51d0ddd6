#include "plan/cut/cut.h"

#include "plan/cut/internal/finish.h"
#include "plan/cut/internal/least_handling.h"
#include "plan/cut/internal/search.h"

#include <algorithm>
#include <compare>
#include <functional>
#include <set>
#include <utility>
#include <vector>

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
    plan.findings.push_back(finding);
  }
}

void explain_rules(const Normal& normal, const std::vector<int>& types, Plan& plan) {
  for (const int type : types) {
    JobFault finding;
    finding.kind = FindingKind::RulesForbid;
    finding.piece = normal.types[static_cast<std::size_t>(type)].pieces.front().first;
    plan.findings.push_back(finding);
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
  const bool counted = job.objective == Objective::SheetCount;
  const std::vector<int> impossible = search_plan(search, counted);
  if (search.best_cost < 0) {
    if (any_limit(normal)) {
      explain_limits(job, effort, result);
    } else {
      explain_rules(normal, impossible, result);
    }
    return result;
  }
  std::vector<Batch> batches = without_surplus(search, search.best);
  if (!counted) enlarge_offcut(search, batches, handled ? 5'000 : 15'000);
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

namespace {

// Parts that are cut up alike at one depth are one round of work.
struct Round {
  int depth = 0;
  Length width = 0, height = 0;
  Direction direction = Direction::Level;
  std::vector<std::pair<Length, int>> fences; // and the cuts at each
  friend auto operator<=>(const Round&, const Round&) = default;
};

class Rounds {
 public:
  explicit Rounds(const Pattern& pattern) : pattern_(pattern) { cut_up(0, 0); }

  int settings() const {
    std::size_t all = 0;
    for (const Round& round : rounds_) all += round.fences.size();
    return static_cast<int>(all);
  }

 private:
  const Part& part(int index) const { return pattern_.parts[static_cast<std::size_t>(index)]; }
  static Length extent(const Part& part, Direction direction) {
    return direction == Direction::Level ? part.height : part.width;
  }

  // The strips that all cuts of one direction make of a part, whichever was cut first.
  void gather(int index, Direction direction, std::vector<int>& strips) const {
    if (index < 0) return;
    const Part& one = part(index);
    if (one.kind == PartKind::Cut && one.direction == direction) {
      gather(one.first, direction, strips);
      gather(one.second, direction, strips);
    } else if (one.kind != PartKind::Leftover) {
      strips.push_back(index);
    }
  }

  void cut_up(int index, int depth) {
    const Part& whole = part(index);
    if (whole.kind != PartKind::Cut) return;
    const Direction direction = whole.direction;
    std::vector<int> strips;
    gather(index, direction, strips);
    std::ranges::stable_sort(strips, std::greater{},
                             [&](int strip) { return extent(part(strip), direction); });
    Round round{depth, whole.width, whole.height, direction, {}};
    Length done = 0;
    for (const int strip : strips) {
      const Length wide = extent(part(strip), direction);
      done += wide;
      if (done >= extent(whole, direction)) continue; // what the cut before it left over
      if (round.fences.empty() || round.fences.back().first != wide)
        round.fences.emplace_back(wide, 0);
      ++round.fences.back().second;
    }
    rounds_.insert(std::move(round));
    for (const int strip : strips) cut_up(strip, depth + 1);
  }

  const Pattern& pattern_;
  std::set<Round> rounds_;
};

} // namespace

int work_settings(const Pattern& pattern) {
  return pattern.parts.empty() ? 0 : Rounds(pattern).settings();
}

} // namespace leafwright::cut
