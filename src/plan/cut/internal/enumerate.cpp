#include "plan/cut/internal/enumerate.h"

#include <algorithm>
#include <cstring>

namespace leafwright::cut {

namespace {

// Copies of eight types in one word, each in a byte whose highest bit stays free, so that a whole
// word is added or compared at once.
constexpr int most_copies = 63;
constexpr std::uint64_t high_bits = 0x8080808080808080ULL;

struct Entry {
  std::int64_t value = 0;
  std::uint64_t hash = 0;
  std::int32_t a = -1, b = -1; // joined entries; a < 0: a single piece
  std::int16_t shape = -1;
  Join join = Join::Leaf;
};

// Which sets a part already has: open addressing, emptied by a new stamp.
class Seen {
 public:
  Seen() : slots_(1024) {}

  void clear() {
    ++stamp_;
    used_ = 0;
  }
  // The first entry of that hash from `at` on, -1: none; moves `at` along.
  std::int32_t next(std::uint64_t hash, std::size_t& at) const {
    for (;; ++at) {
      const Slot& slot = slots_[at & (slots_.size() - 1)];
      if (slot.stamp != stamp_) return -1;
      if (slot.hash == hash) return slot.entry;
    }
  }
  static std::size_t start(std::uint64_t hash) {
    return static_cast<std::size_t>((hash * 0x9e3779b97f4a7c15ULL) >> 32);
  }
  void add(std::uint64_t hash, std::int32_t entry) {
    if (2 * ++used_ > slots_.size()) grow();
    put({hash, entry, stamp_});
  }

 private:
  struct Slot {
    std::uint64_t hash = 0;
    std::int32_t entry = -1;
    std::uint32_t stamp = 0;
  };
  void put(const Slot& slot) {
    std::size_t at = start(slot.hash);
    while (slots_[at & (slots_.size() - 1)].stamp == stamp_) ++at;
    slots_[at & (slots_.size() - 1)] = slot;
  }
  void grow() {
    std::vector<Slot> old(slots_.size() * 2);
    old.swap(slots_);
    for (const Slot& slot : old) {
      if (slot.stamp == stamp_) put(slot);
    }
  }

  std::vector<Slot> slots_;
  std::uint32_t stamp_ = 1;
  std::size_t used_ = 0;
};

class Builder {
 public:
  Builder(const Inside& inside, const Outside& outside, std::span<const OrientedType> shapes,
          std::span<const std::int64_t> wanted, std::span<const Value> value, std::int64_t least,
          std::int64_t most_entries, const std::function<bool()>& hurried)
      : hurried_(hurried), inside_(inside), outside_(outside), shapes_(shapes), wanted_(wanted),
        value_(value), least_(least), most_entries_(most_entries), types_(value.size()),
        words_((types_ + 7) / 8), rows_(static_cast<int>(inside.x().points.size())),
        columns_(static_cast<int>(inside.y().points.size())),
        cells_(static_cast<std::size_t>(rows_) * static_cast<std::size_t>(columns_)),
        scratch_(words_), most_(words_, 0) {
    std::uint64_t mix = 0x853c49e6748fea9bULL;
    for (std::size_t t = 0; t < types_; ++t) {
      byte_of(most_, t) =
          static_cast<std::uint8_t>(std::clamp<std::int64_t>(wanted[t], 0, most_copies));
      mix = (mix ^ (mix >> 31)) * 0xbf58476d1ce4e5b9ULL + 0x94d049bb133111ebULL;
      weight_.push_back(mix | 1);
    }
  }

  Enumeration run() {
    Enumeration result;
    result.complete = build_all();
    result.exhaustive = result.complete && countable();
    result.entries = static_cast<std::int64_t>(entries_.size());
    result.work = work_;
    if (!result.complete) return result;
    for (const int entry : cell(rows_ - 1, columns_ - 1)) {
      Slice slice;
      trace(entry, slice);
      result.slices.push_back(capped(slice, wanted_));
    }
    return result;
  }

 private:
  // Whether no pattern can hold more wanted copies of a type than a byte counts.
  bool countable() const {
    const std::int64_t sheet =
        std::int64_t{inside_.x().points.back()} * std::int64_t{inside_.y().points.back()};
    return std::all_of(shapes_.begin(), shapes_.end(), [&](const OrientedType& shape) {
      return wanted_[static_cast<std::size_t>(shape.type)] <= most_copies ||
             sheet / (std::int64_t{shape.width} * shape.height) <= most_copies;
    });
  }

  // Sticks once true.
  bool enough() {
    if (enough_) return true;
    if (static_cast<std::int64_t>(entries_.size()) > most_entries_ ||
        work_ > 2'000 * most_entries_) {
      enough_ = true;
    } else if (work_ - looked_ > 2'000'000) {
      looked_ = work_;
      enough_ = hurried_ && hurried_();
    }
    return enough_;
  }

  bool build_all() {
    for (int i = 1; i < rows_; ++i) {
      for (int j = 1; j < columns_; ++j) {
        build(i, j);
        if (enough()) return false;
      }
    }
    return true;
  }

  static std::uint8_t& byte_of(std::vector<std::uint64_t>& words, std::size_t type) {
    return reinterpret_cast<std::uint8_t*>(words.data())[type];
  }
  std::vector<int>& cell(int i, int j) {
    return cells_[static_cast<std::size_t>(i) * static_cast<std::size_t>(columns_) +
                  static_cast<std::size_t>(j)];
  }
  const std::uint64_t* counts(int entry) const {
    return &counts_[static_cast<std::size_t>(entry) * words_];
  }
  const Entry& entry_of(int id) const { return entries_[static_cast<std::size_t>(id)]; }

  bool known(std::uint64_t hash, const std::uint64_t* set) const {
    std::size_t at = Seen::start(hash);
    for (std::int32_t id = seen_.next(hash, at); id >= 0; id = seen_.next(hash, ++at)) {
      if (std::memcmp(counts(id), set, words_ * sizeof(std::uint64_t)) == 0) return true;
    }
    return false;
  }

  // Keeps the entry with the set in `scratch_` if it is new to this part.
  void keep(const Entry& entry, std::vector<int>& list) {
    if (known(entry.hash, scratch_.data())) return;
    const int id = static_cast<int>(entries_.size());
    entries_.push_back(entry);
    counts_.insert(counts_.end(), scratch_.begin(), scratch_.end());
    seen_.add(entry.hash, id);
    list.push_back(id);
  }

  void inherit(const std::vector<int>& from, std::int64_t need, std::vector<int>& list) {
    for (const int id : from) {
      const Entry& entry = entry_of(id);
      if (entry.value < need) break;
      ++work_;
      if (known(entry.hash, counts(id))) continue;
      seen_.add(entry.hash, id);
      list.push_back(id);
    }
  }

  // Copies beyond those wanted are dropped at once, so that sets stay comparable.
  void drop_surplus(Entry& entry) {
    for (std::size_t t = 0; t < types_; ++t) {
      const int most = byte_of(most_, t);
      std::uint8_t& copies = byte_of(scratch_, t);
      if (copies <= most) continue;
      const int surplus = copies - most;
      entry.value -= static_cast<std::int64_t>(value_[t]) * surplus;
      entry.hash -= weight_[t] * static_cast<std::uint64_t>(surplus);
      copies = static_cast<std::uint8_t>(most);
    }
  }

  void join(Join how, const std::vector<int>& first, const std::vector<int>& second,
            std::int64_t need, std::vector<int>& list) {
    if (first.empty() || second.empty()) return;
    const std::int64_t most_second = entry_of(second.front()).value;
    for (const int a : first) {
      const std::int64_t value_a = entry_of(a).value;
      if (value_a + most_second < need) break;
      if (enough()) return;
      for (const int b : second) {
        Entry entry;
        entry.value = value_a + entry_of(b).value;
        if (entry.value < need) break;
        ++work_;
        const std::uint64_t* ca = counts(a);
        const std::uint64_t* cb = counts(b);
        std::uint64_t over = 0;
        for (std::size_t k = 0; k < words_; ++k) {
          scratch_[k] = ca[k] + cb[k];
          over |= ~((most_[k] | high_bits) - scratch_[k]) & high_bits;
        }
        entry.hash = entry_of(a).hash + entry_of(b).hash;
        if (over != 0) {
          drop_surplus(entry);
          if (entry.value < need) continue;
        }
        entry.a = a;
        entry.b = b;
        entry.join = how;
        keep(entry, list);
        if (static_cast<std::int64_t>(entries_.size()) > most_entries_) return;
      }
    }
  }

  void build(int i, int j) {
    const std::int64_t need = least_ - outside_.at(i, j);
    if (inside_.at(i, j) < need) return;
    std::vector<int> list;
    seen_.clear();
    inherit(cell(i - 1, j), need, list);
    inherit(cell(i, j - 1), need, list);
    const std::size_t inherited = list.size();
    const Raster& x = inside_.x();
    const Raster& y = inside_.y();
    const int w = x.points[static_cast<std::size_t>(i)];
    const int h = y.points[static_cast<std::size_t>(j)];
    for (std::size_t k = 0; k < shapes_.size(); ++k) {
      const OrientedType& shape = shapes_[k];
      const auto type = static_cast<std::size_t>(shape.type);
      if (wanted_[type] <= 0 || value_[type] < need || shape.width > w || shape.height > h) {
        continue;
      }
      std::fill(scratch_.begin(), scratch_.end(), std::uint64_t{0});
      byte_of(scratch_, type) = 1;
      Entry entry;
      entry.value = value_[type];
      entry.hash = weight_[type];
      entry.shape = static_cast<std::int16_t>(k);
      keep(entry, list);
    }
    for (int k = 1; 2 * x.points[static_cast<std::size_t>(k)] <= w; ++k) {
      const int rest = x.below[static_cast<std::size_t>(w - x.points[static_cast<std::size_t>(k)])];
      if (static_cast<std::int64_t>(inside_.at(k, j)) + inside_.at(rest, j) < need) continue;
      join(Join::Beside, cell(k, j), cell(rest, j), need, list);
    }
    for (int k = 1; 2 * y.points[static_cast<std::size_t>(k)] <= h; ++k) {
      const int rest = y.below[static_cast<std::size_t>(h - y.points[static_cast<std::size_t>(k)])];
      if (static_cast<std::int64_t>(inside_.at(i, k)) + inside_.at(i, rest) < need) continue;
      join(Join::Above, cell(i, k), cell(i, rest), need, list);
    }
    work_ += i + j;
    // Two lists inherited, each without sets in one another, may still hold such; so may new ones.
    if (list.size() > inherited || (!cell(i - 1, j).empty() && !cell(i, j - 1).empty())) {
      std::sort(list.begin(), list.end(), [&](int a, int b) {
        const std::int64_t va = entry_of(a).value;
        const std::int64_t vb = entry_of(b).value;
        return va != vb ? va > vb : a < b;
      });
      drop_contained(list);
    }
    cell(i, j) = std::move(list);
  }

  bool contains(int outer, int inner) const {
    const std::uint64_t* a = counts(outer);
    const std::uint64_t* b = counts(inner);
    for (std::size_t k = 0; k < words_; ++k) {
      if ((((a[k] | high_bits) - b[k]) & high_bits) != high_bits) return false;
    }
    return true;
  }

  // A set inside another of the same part is never needed: surplus pieces are simply not used.
  void drop_contained(std::vector<int>& list) {
    constexpr std::size_t most_compared = 3000;
    if (list.size() > most_compared) return;
    std::size_t kept = 0;
    for (const int id : list) {
      const bool inside =
          std::any_of(list.begin(), list.begin() + static_cast<std::ptrdiff_t>(kept),
                      [&](int other) { return contains(other, id); });
      work_ += static_cast<std::int64_t>(kept / 4);
      if (!inside) list[kept++] = id;
    }
    list.resize(kept);
  }

  int trace(int id, Slice& slice) const {
    const Entry& entry = entry_of(id);
    if (entry.a < 0) return slice.leaf(shapes_[static_cast<std::size_t>(entry.shape)]);
    const int a = trace(entry.a, slice);
    const int b = trace(entry.b, slice);
    return slice.join(entry.join, a, b);
  }

  const std::function<bool()>& hurried_;
  bool enough_ = false;
  std::int64_t looked_ = 0; // work when `hurried_` was last asked
  const Inside& inside_;
  const Outside& outside_;
  std::span<const OrientedType> shapes_;
  std::span<const std::int64_t> wanted_;
  std::span<const Value> value_;
  std::int64_t least_, most_entries_;
  std::size_t types_, words_;
  int rows_, columns_;
  std::vector<std::vector<int>> cells_;
  std::vector<Entry> entries_;
  std::vector<std::uint64_t> counts_, scratch_, most_;
  std::vector<std::uint64_t> weight_; // of one copy in the hash, which is their sum
  Seen seen_;                         // of the part being built
  std::int64_t work_ = 0;
};

} // namespace

Enumeration enumerate(const Inside& inside, const Outside& outside,
                      std::span<const OrientedType> shapes, std::span<const std::int64_t> wanted,
                      std::span<const Value> value, std::int64_t least, std::int64_t most_entries,
                      const std::function<bool()>& hurried) {
  if (!inside.exact() || shapes.size() > 30000) return {};
  return Builder(inside, outside, shapes, wanted, value, least, most_entries, hurried).run();
}

} // namespace leafwright::cut
