#pragma once

#include "plan/cut/internal/inside.h"

#include <cstdint>
#include <functional>
#include <span>
#include <vector>

namespace leafwright::cut {

// g(w, h): the most value the rest of the sheet can yield around a part of that size, whatever the
// part itself holds. The counterpart of the knapsack's inside, on the same grid.
class Outside {
 public:
  explicit Outside(const Inside& inside);

  Value at(int i, int j) const {
    return table_[static_cast<std::size_t>(i) * stride_ + static_cast<std::size_t>(j)];
  }

 private:
  void finish_block(const Inside& inside, std::size_t begin, std::size_t end);

  std::size_t rows_, columns_, stride_;
  std::vector<Value> table_;
};

// Steps an outside table takes: to decide beforehand.
std::int64_t outside_work(const Inside& inside);

// Every pattern worth knowing: all piece sets that some straight-cut pattern of the sheet yields,
// with no more copies than wanted and a value of at least `least`, leaving out sets contained in
// others found. Each partial pattern carries the exact most that the rest of the sheet could add,
// so what cannot reach `least` is never built.
struct Enumeration {
  std::vector<Slice> slices;
  bool complete = false; // false: the limit was reached, the list is empty
  // Nothing is missing; false where a pattern could hold more copies of a type than are counted
  // (63), so that the list proves nothing.
  bool exhaustive = false;
  std::int64_t work = 0;
  std::int64_t entries = 0;
};

// `inside` must be exact, with a positive value for every type. Given up when `hurried` says so.
Enumeration enumerate(const Inside& inside, const Outside& outside,
                      std::span<const OrientedType> shapes, std::span<const std::int64_t> wanted,
                      std::span<const Value> value, std::int64_t least, std::int64_t most_entries,
                      const std::function<bool()>& hurried = {});

} // namespace leafwright::cut
