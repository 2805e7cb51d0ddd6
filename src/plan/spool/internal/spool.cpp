#include "plan/spool/spool.h"

#include "measure/index.h"
#include "plan/cut/cut.h"
#include "plan/spool/internal/fill.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <optional>
#include <set>
#include <string>
#include <utility>

namespace leafwright::spool {

namespace {

constexpr std::int64_t search_steps = 1'000'000;         // under a second
constexpr std::int64_t sheet_planner_work = 300'000'000; // its own steps; about as long

// Sizes are the longest first; `order` says which of Job::rests each of Task::rests is.
struct Prepared {
  Task task;
  Units unit = 1; // nanometres
  std::vector<int> order;
  std::vector<Cut> impossible;
};

Prepared prepare(const Job& job) {
  Prepared out;
  Length longest = job.spool;
  for (const Length rest : job.rests) longest = std::max(longest, rest);
  std::map<Length, std::int64_t, std::greater<>> wanted;
  for (const Cut& cut : job.cuts)
    if (cut.count > 0 && cut.length > Length{}) wanted[cut.length] += cut.count;
  Units unit = job.spool.nm;
  for (const auto& [length, count] : wanted) {
    if (length > longest)
      out.impossible.push_back({length, count});
    else
      unit = std::gcd(unit, length.nm);
  }
  out.unit = std::max<Units>(unit, 1);
  for (const auto& [length, count] : wanted) {
    if (length > longest) continue;
    out.task.lengths.push_back(length.nm / out.unit);
    out.task.wanted.push_back(count);
  }
  out.task.spool = job.spool.nm / out.unit;
  for (std::size_t i = 0; i < job.rests.size(); ++i)
    if (job.rests[i].nm >= out.unit) out.order.push_back(static_cast<int>(i));
  // Short rests first: they serve short pieces only, and are soonest used up.
  std::stable_sort(out.order.begin(), out.order.end(),
                   [&](int a, int b) { return job.rests[as_index(a)] < job.rests[as_index(b)]; });
  for (const int i : out.order) out.task.rests.push_back(job.rests[as_index(i)].nm / out.unit);
  return out;
}

std::vector<std::int64_t> missing(const Task& task, const Filled& filled) {
  std::vector<std::int64_t> open = task.wanted;
  for (const auto* list : {&filled.rests, &filled.spools})
    for (const Filling& filling : *list)
      for (std::size_t i = 0; i < open.size(); ++i) open[i] -= filling[i];
  return open;
}

bool complete(const Task& task, const Filled& filled) {
  const auto open = missing(task, filled);
  return std::all_of(open.begin(), open.end(), [](auto n) { return n == 0; });
}

// The longest rest in one piece decides between plans of as many spools.
Units longest_left(const Task& task, const Filled& filled) {
  Units longest = 0;
  for (const Filling& filling : filled.spools)
    longest = std::max(longest, task.spool - total(task.lengths, filling));
  return longest;
}

bool better(const Task& task, const Filled& a, const Filled& b) {
  if (a.spools.size() != b.spools.size()) return a.spools.size() < b.spools.size();
  return longest_left(task, a) > longest_left(task, b);
}

Reel reel_of(const Prepared& prepared, const Filling& filling, int rest, Length room) {
  Reel reel;
  reel.rest = rest;
  reel.left = room;
  for (std::size_t i = 0; i < filling.size(); ++i) {
    if (filling[i] == 0) continue;
    const Length length{prepared.task.lengths[i] * prepared.unit};
    reel.cuts.push_back({length, filling[i]});
    reel.left -= length * filling[i];
  }
  return reel;
}

// A spool is a sheet as wide as it is long and one unit high: what the planner of sheets proves of
// it holds for the spool. A rest costs nothing and is there once.
cut::Plan plan_as_sheets(const Task& task) {
  cut::Job job;
  for (std::size_t i = 0; i < task.lengths.size(); ++i)
    job.pieces.push_back({std::to_string(i), task.lengths[i], 1, task.wanted[i], false});
  job.sheets.push_back({"spool", task.spool, 1, 1, std::nullopt, true});
  for (const Units rest : task.rests) job.sheets.push_back({"rest", rest, 1, 0, 1, true});
  cut::Effort effort;
  effort.work = sheet_planner_work;
  return cut::plan(job, effort);
}

// Sheets of the planner as fillings; sheet 0 is the spool.
Filled filled_from(const Task& task, const cut::Plan& plan) {
  Filled filled;
  filled.rests.assign(task.rests.size(), Filling(task.lengths.size(), 0));
  for (const cut::Pattern& pattern : plan.patterns) {
    Filling filling(task.lengths.size(), 0);
    for (const cut::Part& part : pattern.parts)
      if (part.kind == cut::PartKind::Piece) filling.at(as_index(part.piece)) += 1;
    if (pattern.sheet > 0)
      filled.rests.at(as_index(pattern.sheet) - 1) = filling;
    else
      filled.spools.insert(filled.spools.end(), as_index(pattern.count), filling);
  }
  return filled;
}

void write_reels(const Job& job, const Prepared& prepared, const Filled& filled, Plan& plan) {
  for (std::size_t i = 0; i < filled.rests.size(); ++i) {
    const int rest = prepared.order[i];
    Reel reel = reel_of(prepared, filled.rests[i], rest, job.rests[as_index(rest)]);
    if (!reel.cuts.empty()) plan.reels.push_back(std::move(reel));
  }
  std::map<Filling, std::int64_t, std::greater<>> alike;
  for (const Filling& filling : filled.spools) ++alike[filling];
  for (const auto& [filling, times] : alike) {
    plan.reels.push_back(reel_of(prepared, filling, -1, job.spool));
    plan.reels.back().times = times;
  }
}

} // namespace

Plan plan(const Job& job) {
  Plan plan;
  const Prepared prepared = prepare(job);
  plan.impossible = prepared.impossible;
  const Task& task = prepared.task;
  Filled best = first_fit(task);
  Filled other = fullest_first(task);
  const bool possible = complete(task, best);
  if (complete(task, other) && (!possible || better(task, other, best))) best = std::move(other);
  std::int64_t at_least = spools_at_least(job);
  std::int64_t steps = search_steps;
  if (!complete(task, best)) {
    // A piece that only a rest could hold, and the rests do not hold them all.
    const auto open = missing(task, best);
    for (std::size_t i = 0; i < open.size(); ++i)
      if (open[i] > 0) plan.impossible.push_back({{task.lengths[i] * prepared.unit}, open[i]});
    write_reels(job, prepared, best, plan);
    plan.spools = static_cast<std::int64_t>(best.spools.size());
    plan.at_least = at_least;
    return plan;
  }
  if (static_cast<std::int64_t>(best.spools.size()) > at_least) {
    const cut::Plan sheets = plan_as_sheets(task);
    at_least = std::max(at_least, sheets.bound_cost);
    Filled found = filled_from(task, sheets);
    if (complete(task, found) && better(task, found, best)) best = std::move(found);
  }
  while (static_cast<std::int64_t>(best.spools.size()) > at_least && steps > 0) {
    Search search = fit_into(task, static_cast<std::int64_t>(best.spools.size()) - 1, steps);
    if (search.answer == Answer::Yes)
      best = std::move(search.filled);
    else if (search.answer == Answer::No)
      at_least = static_cast<std::int64_t>(best.spools.size());
    else
      break;
  }
  write_reels(job, prepared, best, plan);
  plan.spools = static_cast<std::int64_t>(best.spools.size());
  plan.at_least = at_least;
  plan.proven = plan.spools == at_least;
  return plan;
}

namespace {

// Some best way to fill the next new spool holds the longest piece that is left (any spool with it
// may be called the next), and a filling that leaves room for another piece is never better than
// one that takes it: so only maximal fillings around the longest piece are tried. What has failed
// once is remembered by what was left to do.
class Fit {
 public:
  Fit(const Task& task, std::int64_t spools, std::int64_t& steps)
      : task_(task), open_(task.wanted), reels_(task.rests.size() + as_index(spools)),
        steps_(steps) {
    Units room = spools * task.spool;
    for (const Units rest : task.rests) room += rest;
    loss_ = room - total(task.lengths, open_);
  }

  Search find() {
    Search search;
    if (loss_ < 0) {
      search.answer = Answer::No;
      return search;
    }
    const bool found = go(0);
    search.answer = found ? Answer::Yes : (steps_ > 0 ? Answer::No : Answer::GivenUp);
    if (!found) return search;
    fillings_.resize(reels_, Filling(task_.lengths.size(), 0));
    const auto rests = static_cast<std::ptrdiff_t>(task_.rests.size());
    search.filled.rests.assign(fillings_.begin(), fillings_.begin() + rests);
    for (auto it = fillings_.begin() + rests; it != fillings_.end(); ++it)
      if (total(task_.lengths, *it) > 0) search.filled.spools.push_back(*it);
    return search;
  }

 private:
  std::size_t longest_open() const {
    std::size_t i = 0;
    while (i < open_.size() && open_[i] == 0) ++i;
    return i;
  }

  bool go(std::size_t reel) {
    const std::size_t longest = longest_open();
    if (longest == open_.size()) return true;
    if (reel == reels_ || steps_ <= 0) return false;
    if (failed_.contains({reel, open_})) return false;
    const bool rest = reel < task_.rests.size();
    const Units room = rest ? task_.rests[reel] : task_.spool;
    fillings_.emplace_back(task_.lengths.size(), 0);
    std::size_t first = 0;
    Units used = 0;
    bool found = false;
    if (!rest) {
      first = longest;
      if (task_.lengths[longest] <= room) {
        fillings_.back()[longest] = 1;
        open_[longest] -= 1;
        used = task_.lengths[longest];
        found = fill(reel, first, room - used);
        if (!found) {
          open_[longest] += 1;
        }
      }
    } else {
      found = fill(reel, first, room);
    }
    if (found) return true;
    fillings_.pop_back();
    if (steps_ > 0 && failed_.size() < 400'000) failed_.insert({reel, open_});
    return false;
  }

  // Chooses how many of length `i` and on go into what is left of this reel.
  bool fill(std::size_t reel, std::size_t i, Units room) {
    if (--steps_ <= 0) return false;
    if (i == task_.lengths.size()) return close(reel, room);
    const Units length = task_.lengths[i];
    const std::int64_t most = std::min(open_[i], room / length);
    const std::size_t depth = fillings_.size() - 1;
    for (std::int64_t n = most; n >= 0; --n) {
      // Too little is left of shorter pieces to make good what is not taken here.
      if (n < most && room - n * length - shorter_open(i) > loss_) break;
      fillings_[depth][i] += n;
      open_[i] -= n;
      if (fill(reel, i + 1, room - n * length)) return true;
      open_[i] += n;
      fillings_[depth][i] -= n;
      if (steps_ <= 0) return false;
    }
    return false;
  }

  Units shorter_open(std::size_t i) const {
    Units sum = 0;
    for (std::size_t j = i + 1; j < open_.size(); ++j) sum += open_[j] * task_.lengths[j];
    return sum;
  }

  bool close(std::size_t reel, Units room) {
    if (room > loss_) return false;
    for (std::size_t j = open_.size(); j-- > 0;)
      if (open_[j] > 0) {
        if (task_.lengths[j] <= room) return false; // not maximal
        break;
      }
    loss_ -= room;
    if (go(reel + 1)) return true;
    loss_ += room;
    return false;
  }

  const Task& task_;
  std::vector<std::int64_t> open_;
  std::size_t reels_;
  std::int64_t& steps_;
  Units loss_ = 0; // may be lost in all the reels to come
  std::vector<Filling> fillings_;
  std::set<std::pair<std::size_t, std::vector<std::int64_t>>> failed_;
};

} // namespace

Search fit_into(const Task& task, std::int64_t spools, std::int64_t& steps) {
  return Fit(task, spools, steps).find();
}

} // namespace leafwright::spool
