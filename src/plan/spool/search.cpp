#include "measure/index.h"
#include "plan/spool/fill.h"

#include <set>

namespace leafwright::spool {

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
