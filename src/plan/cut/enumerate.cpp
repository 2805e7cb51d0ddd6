#include "plan/cut/enumerate.h"

#include <algorithm>
#include <array>
#include <cstring>
#include <unordered_map>

namespace leafwright::cut {

namespace {

// g(w, h): the most value the rest of the sheet can yield around a part of that size.
class Outside {
 public:
  explicit Outside(const Inside& inside)
      : rows_(inside.x().points.size()), columns_(inside.y().points.size()),
        table_(rows_ * columns_, 0) {
    const Raster& x = inside.x();
    const Raster& y = inside.y();
    for (std::size_t i = rows_; i-- > 1;) {
      Value* row = &table_[i * columns_];
      if (i + 1 < rows_) std::copy_n(&table_[(i + 1) * columns_], columns_, row);
      for (std::size_t k = i + 1; k < rows_; ++k) {
        const int rest = x.below[static_cast<std::size_t>(x.points[k] - x.points[i])];
        if (rest == 0) continue;
        const Value* parent = &table_[k * columns_];
        for (std::size_t j = 1; j < columns_; ++j) {
          row[j] = std::max(row[j], parent[j] + inside.at(rest, static_cast<int>(j)));
        }
      }
      for (std::size_t j = columns_ - 1; j-- > 1;) {
        Value best = std::max(row[j], row[j + 1]);
        for (std::size_t k = j + 1; k < columns_; ++k) {
          const int rest = y.below[static_cast<std::size_t>(y.points[k] - y.points[j])];
          best = std::max(best, row[k] + inside.at(static_cast<int>(i), rest));
        }
        row[j] = best;
      }
    }
  }

  Value at(int i, int j) const {
    return table_[static_cast<std::size_t>(i) * columns_ + static_cast<std::size_t>(j)];
  }

 private:
  std::size_t rows_, columns_;
  std::vector<Value> table_;
};

struct Entry {
  std::int64_t value = 0;
  std::int32_t a = -1, b = -1; ///< joined entries; a < 0: a single piece
  std::int16_t shape = -1;
  Join join = Join::Leaf;
};

class Builder {
 public:
  Builder(const Inside& inside, std::span<const Shape> shapes, std::span<const std::int64_t> wanted,
          std::span<const Value> value, std::int64_t least, std::int64_t most_entries)
      : inside_(inside), outside_(inside), shapes_(shapes), wanted_(wanted), value_(value),
        least_(least), most_entries_(most_entries), types_(value.size()),
        width_((types_ + 7) / 8 * 8), rows_(static_cast<int>(inside.x().points.size())),
        columns_(static_cast<int>(inside.y().points.size())),
        cells_(static_cast<std::size_t>(rows_) * static_cast<std::size_t>(columns_)) {
    for (std::size_t t = 0; t < types_; ++t) {
      most_.push_back(static_cast<std::uint8_t>(std::clamp<std::int64_t>(wanted[t], 0, 250)));
    }
    most_.resize(width_, 0);
  }

  Enumeration run() {
    Enumeration result;
    result.work = outside_work(inside_);
    for (int i = 1; i < rows_; ++i) {
      for (int j = 1; j < columns_; ++j) {
        build(i, j);
        if (static_cast<std::int64_t>(entries_.size()) > most_entries_) {
          result.entries = static_cast<std::int64_t>(entries_.size());
          result.work += work_;
          return result;
        }
      }
    }
    result.complete = true;
    result.entries = static_cast<std::int64_t>(entries_.size());
    result.work += work_;
    for (const int entry : cell(rows_ - 1, columns_ - 1)) {
      Slice slice;
      trace(entry, slice);
      result.slices.push_back(capped(slice, wanted_));
    }
    return result;
  }

 private:
  std::vector<int>& cell(int i, int j) {
    return cells_[static_cast<std::size_t>(i) * static_cast<std::size_t>(columns_) +
                  static_cast<std::size_t>(j)];
  }
  const std::uint8_t* counts(int entry) const {
    return &counts_[static_cast<std::size_t>(entry) * width_];
  }

  static std::uint64_t hash_of(const std::uint8_t* counts, std::size_t width) {
    std::uint64_t hash = 0x9e3779b97f4a7c15ULL;
    for (std::size_t k = 0; k < width; k += 8) {
      std::uint64_t word = 0;
      std::memcpy(&word, counts + k, 8);
      hash = (hash ^ word) * 0xff51afd7ed558ccdULL;
      hash ^= hash >> 29;
    }
    return hash;
  }

  // Keeps the entry if its set is new to this cell.
  void keep(Entry entry, std::vector<int>& list) {
    const std::uint64_t hash = hash_of(scratch_.data(), width_);
    const auto [begin, end] = seen_.equal_range(hash);
    for (auto at = begin; at != end; ++at) {
      if (std::memcmp(counts(at->second), scratch_.data(), width_) == 0) return;
    }
    const int id = static_cast<int>(entries_.size());
    entries_.push_back(entry);
    counts_.insert(counts_.end(), scratch_.begin(), scratch_.end());
    seen_.emplace(hash, id);
    list.push_back(id);
  }

  void inherit(const std::vector<int>& from, std::int64_t need, std::vector<int>& list) {
    for (const int id : from) {
      if (entries_[static_cast<std::size_t>(id)].value < need) break;
      const std::uint64_t hash = hash_of(counts(id), width_);
      const auto [begin, end] = seen_.equal_range(hash);
      const bool known = std::any_of(begin, end, [&](const auto& at) {
        return std::memcmp(counts(at.second), counts(id), width_) == 0;
      });
      if (known) continue;
      seen_.emplace(hash, id);
      list.push_back(id);
    }
  }

  void join(Join how, const std::vector<int>& first, const std::vector<int>& second,
            std::int64_t need, std::vector<int>& list) {
    if (first.empty() || second.empty()) return;
    for (const int a : first) {
      const std::int64_t value_a = entries_[static_cast<std::size_t>(a)].value;
      if (value_a + entries_[static_cast<std::size_t>(second.front())].value < need) break;
      for (const int b : second) {
        std::int64_t value = value_a + entries_[static_cast<std::size_t>(b)].value;
        if (value < need) break;
        work_ += static_cast<std::int64_t>(width_);
        const std::uint8_t* ca = counts(a);
        const std::uint8_t* cb = counts(b);
        // Copies beyond those wanted are dropped again; dropping them here keeps sets comparable.
        for (std::size_t t = 0; t < types_; ++t) {
          int sum = ca[t] + cb[t];
          if (sum > most_[t]) {
            value -= static_cast<std::int64_t>(value_[t]) * (sum - most_[t]);
            sum = most_[t];
          }
          scratch_[t] = static_cast<std::uint8_t>(sum);
        }
        if (value < need) continue;
        Entry entry;
        entry.value = value;
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
    scratch_.assign(width_, 0);
    inherit(cell(i - 1, j), need, list);
    inherit(cell(i, j - 1), need, list);
    const Raster& x = inside_.x();
    const Raster& y = inside_.y();
    const int w = x.points[static_cast<std::size_t>(i)];
    const int h = y.points[static_cast<std::size_t>(j)];
    for (std::size_t k = 0; k < shapes_.size(); ++k) {
      const Shape& shape = shapes_[k];
      const auto type = static_cast<std::size_t>(shape.type);
      if (most_[type] == 0 || value_[type] < need || shape.width > w || shape.height > h) continue;
      std::fill(scratch_.begin(), scratch_.end(), std::uint8_t{0});
      scratch_[type] = 1;
      Entry entry;
      entry.value = value_[type];
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
    std::sort(list.begin(), list.end(), [&](int a, int b) {
      const std::int64_t va = entries_[static_cast<std::size_t>(a)].value;
      const std::int64_t vb = entries_[static_cast<std::size_t>(b)].value;
      return va != vb ? va > vb : a < b;
    });
    drop_contained(list);
    cell(i, j) = std::move(list);
  }

  bool contains(int outer, int inner) const {
    const std::uint8_t* a = counts(outer);
    const std::uint8_t* b = counts(inner);
    bool all = true;
    for (std::size_t t = 0; t < width_; ++t) all = all && a[t] >= b[t];
    return all;
  }

  // A set inside another of the same part is never needed: surplus pieces are simply not used.
  void drop_contained(std::vector<int>& list) {
    constexpr std::size_t most_compared = 3000;
    if (list.size() > most_compared) return;
    std::vector<int> kept;
    for (const int id : list) {
      const bool inside =
          std::any_of(kept.begin(), kept.end(), [&](int other) { return contains(other, id); });
      work_ += static_cast<std::int64_t>(kept.size());
      if (!inside) kept.push_back(id);
    }
    list = std::move(kept);
  }

  int trace(int id, Slice& slice) const {
    const Entry& entry = entries_[static_cast<std::size_t>(id)];
    if (entry.a < 0) return slice.leaf(shapes_[static_cast<std::size_t>(entry.shape)]);
    const int a = trace(entry.a, slice);
    const int b = trace(entry.b, slice);
    return slice.join(entry.join, a, b);
  }

  const Inside& inside_;
  Outside outside_;
  std::span<const Shape> shapes_;
  std::span<const std::int64_t> wanted_;
  std::span<const Value> value_;
  std::int64_t least_, most_entries_;
  std::size_t types_, width_;
  int rows_, columns_;
  std::vector<std::vector<int>> cells_;
  std::vector<Entry> entries_;
  std::vector<std::uint8_t> counts_, scratch_, most_;
  std::unordered_multimap<std::uint64_t, int> seen_; ///< of the cell being built; never iterated
  std::int64_t work_ = 0;
};

} // namespace

std::int64_t outside_work(const Inside& inside) {
  const auto rows = static_cast<std::int64_t>(inside.x().points.size());
  const auto columns = static_cast<std::int64_t>(inside.y().points.size());
  return rows * columns * (rows + columns) / 2;
}

Enumeration enumerate(const Inside& inside, std::span<const Shape> shapes,
                      std::span<const std::int64_t> wanted, std::span<const Value> value,
                      std::int64_t least, std::int64_t most_entries) {
  if (!inside.exact() || shapes.size() > 30000) return {};
  return Builder(inside, shapes, wanted, value, least, most_entries).run();
}

} // namespace leafwright::cut
