#pragma once

#include "plan/cut/inside.h"

#include <cstdint>
#include <span>
#include <vector>

namespace leafwright::cut {

/// Every pattern worth knowing: all piece sets that some straight-cut pattern of the sheet yields,
/// with no more copies than wanted and a value of at least `least`, leaving out sets contained in
/// others found. Each partial pattern carries the exact most that the rest of the sheet could add
/// (the outside of the knapsack's inside), so what cannot reach `least` is never built.
struct Enumeration {
  std::vector<Slice> slices;
  bool complete = false; ///< false: the limit was reached, nothing is proven by the list
  std::int64_t work = 0;
  std::int64_t entries = 0;
};

/// `inside` must be exact, with a positive value for every type.
Enumeration enumerate(const Inside& inside, std::span<const Shape> shapes,
                      std::span<const std::int64_t> wanted, std::span<const Value> value,
                      std::int64_t least, std::int64_t most_entries);

/// Cells times cuts an outside table takes: to decide beforehand.
std::int64_t outside_work(const Inside& inside);

} // namespace leafwright::cut
