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

} // namespace leafwright::spool
