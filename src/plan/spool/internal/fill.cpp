#include "plan/spool/internal/fill.h"

#include "plan/spool/spool.h"

#include <algorithm>
#include <utility>

namespace leafwright::spool {

namespace {

__extension__ using Wide = __int128;

Wide rounded_up(Wide a, Wide b) { return a <= 0 ? 0 : (a + b - 1) / b; }

using Items = std::vector<std::pair<std::int64_t, std::int64_t>>; // length, count

// Bins of size `bin` that items need at least. Every function below maps a length to a part of a
// bin so that what fits one bin never maps to more than one: the mapped sum is a bound as well.
class Bound {
 public:
  Bound(Items items, std::int64_t bin) : items_(std::move(items)), bin_(bin) {}

  Wide best() const {
    Wide best = by_length(0);
    for (const auto& [length, count] : items_) {
      if (2 * length > bin_) continue;
      best = std::max({best, by_length(length), by_number(length)});
      for (std::int64_t k = 1; k <= steps; ++k) best = std::max(best, by_steps(length, k));
    }
    for (std::int64_t k = 1; k <= steps; ++k) best = std::max(best, by_steps(0, k));
    return best;
  }

 private:
  static constexpr std::int64_t steps = 40;

  // Longer than all but `small` counts as a whole bin, shorter than `small` as nothing.
  Wide by_length(std::int64_t small) const {
    Wide sum = 0;
    for (const auto& [length, count] : items_) {
      if (length < small) continue;
      sum += Wide{length > bin_ - small ? bin_ : length} * count;
    }
    return rounded_up(sum, bin_);
  }

  // The same, then rounded down to steps of 1/k where (k + 1) lengths do not fill whole bins.
  Wide by_steps(std::int64_t small, std::int64_t k) const {
    Wide exact = 0, stepped = 0;
    for (const auto& [length, count] : items_) {
      if (length < small) continue;
      if (length > bin_ - small && small > 0) {
        exact += Wide{bin_} * count;
        continue;
      }
      const Wide times = Wide{k + 1} * length;
      if (times % bin_ == 0)
        exact += Wide{length} * count;
      else
        stepped += times / bin_ * count;
    }
    return rounded_up(exact * k + stepped * bin_, Wide{bin_} * k);
  }

  // Pieces of at least `small`: so many to a bin, fewer beside one of more than half.
  Wide by_number(std::int64_t small) const {
    if (small <= 0) return 0;
    const Wide most = bin_ / small;
    Wide sum = 0;
    for (const auto& [length, count] : items_) {
      if (2 * length > bin_)
        sum += (most - (bin_ - length) / small) * count;
      else if (length >= small)
        sum += Wide{count};
    }
    return rounded_up(sum, most);
  }

  Items items_;
  std::int64_t bin_;
};

} // namespace

std::int64_t spools_at_least(const Job& job) {
  const std::int64_t spool = job.spool.nm;
  if (spool <= 0) return 0;
  Items items;
  Wide length_wanted = 0, in_hand = 0;
  std::int64_t longest_rest = 0;
  for (const Length rest : job.rests) {
    in_hand += rest.nm;
    longest_rest = std::max(longest_rest, rest.nm);
  }
  for (const Cut& cut : job.cuts) {
    if (cut.count <= 0 || cut.length <= Length{} || cut.length.nm > spool) continue;
    items.emplace_back(cut.length.nm, cut.count);
    length_wanted += Wide{cut.length.nm} * cut.count;
  }
  // A rest longer than a new spool (another maker's reel) leaves only the bound by length.
  if (longest_rest > spool)
    return static_cast<std::int64_t>(rounded_up(length_wanted - in_hand, spool));
  for (const Length rest : job.rests)
    if (rest.nm < spool) items.emplace_back(spool - rest.nm, 1);
  const Wide reels = Bound(std::move(items), spool).best();
  return static_cast<std::int64_t>(std::max<Wide>(0, reels - static_cast<Wide>(job.rests.size())));
}

namespace {

// Depth first, most of the longest first: the first filling met is the greedy one.
class Fullest {
 public:
  Fullest(const Task& task, Units room, bool longest)
      : task_(task), room_(room), longest_(longest), counts_(task.lengths.size(), 0) {
    rest_.assign(task.lengths.size() + 1, 0);
    for (std::size_t i = task.lengths.size(); i-- > 0;)
      rest_[i] = rest_[i + 1] + task.lengths[i] * task.wanted[i];
  }

  Filling find() {
    best_ = counts_;
    std::size_t first = 0;
    Units used = 0;
    if (longest_) {
      while (first < task_.wanted.size() && task_.wanted[first] == 0) ++first;
      if (first == task_.wanted.size() || task_.lengths[first] > room_) return best_;
      counts_[first] = 1;
      used = task_.lengths[first];
    }
    go(first, used);
    return best_;
  }

 private:
  void go(std::size_t i, Units used) {
    if (best_used_ == room_ || steps_ <= 0) return;
    --steps_;
    if (used > best_used_) {
      best_used_ = used;
      best_ = counts_;
    }
    if (i == task_.lengths.size() || used + rest_[i] <= best_used_) return;
    const std::int64_t has = counts_[i];
    const std::int64_t room = std::min(task_.wanted[i] - has, (room_ - used) / task_.lengths[i]);
    for (std::int64_t more = room; more >= 0; --more) {
      counts_[i] = has + more;
      go(i + 1, used + more * task_.lengths[i]);
    }
    counts_[i] = has;
  }

  const Task& task_;
  Units room_;
  bool longest_;
  Filling counts_, best_;
  std::vector<Units> rest_; // length of all that is wanted from this one on
  Units best_used_ = -1;
  int steps_ = 20'000;
};

void take(Task& task, const Filling& filling) {
  for (std::size_t i = 0; i < filling.size(); ++i) task.wanted[i] -= filling[i];
}

bool done(const Task& task) {
  return std::all_of(task.wanted.begin(), task.wanted.end(), [](auto n) { return n == 0; });
}

} // namespace

Units total(const std::vector<Units>& lengths, const std::vector<std::int64_t>& counts) {
  Units sum = 0;
  for (std::size_t i = 0; i < lengths.size(); ++i) sum += lengths[i] * counts[i];
  return sum;
}

Filling fullest(const Task& task, Units room, bool longest) {
  return Fullest(task, room, longest).find();
}

Filled first_fit(const Task& task) {
  Filled filled;
  std::vector<Units> left = task.rests;
  filled.rests.assign(task.rests.size(), Filling(task.lengths.size(), 0));
  const std::size_t rests = task.rests.size();
  for (std::size_t i = 0; i < task.lengths.size(); ++i) {
    std::int64_t open = task.wanted[i];
    for (std::size_t reel = 0; open > 0; ++reel) {
      if (reel == left.size()) {
        if (task.lengths[i] > task.spool) break;
        left.push_back(task.spool);
        filled.spools.emplace_back(task.lengths.size(), 0);
      }
      const std::int64_t here = std::min(open, left[reel] / task.lengths[i]);
      if (here == 0) continue;
      (reel < rests ? filled.rests[reel] : filled.spools[reel - rests])[i] += here;
      left[reel] -= here * task.lengths[i];
      open -= here;
    }
  }
  return filled;
}

Filled fullest_first(const Task& task) {
  Filled filled;
  Task open = task;
  for (const Units room : task.rests) {
    filled.rests.push_back(fullest(open, room, false));
    take(open, filled.rests.back());
  }
  while (!done(open)) {
    const Filling filling = fullest(open, open.spool, true);
    if (total(task.lengths, filling) == 0) break; // nothing that is left fits a spool
    std::int64_t times = 0;                       // alike until something runs out
    do {
      filled.spools.push_back(filling);
      take(open, filling);
      ++times;
    } while (std::equal(filling.begin(), filling.end(), open.wanted.begin(),
                        [](auto used, auto wanted) { return used <= wanted; }));
  }
  return filled;
}

} // namespace leafwright::spool
