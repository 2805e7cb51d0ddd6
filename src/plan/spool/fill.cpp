#include "plan/spool/fill.h"

#include <algorithm>

namespace leafwright::spool {

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
