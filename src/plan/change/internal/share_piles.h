#pragma once

#include <cstdint>
#include <vector>

// Piles and what they can serve, shared out best. Knows numbers only.

namespace leafwright::change {

struct Arc {
  int pile = -1, want = -1;
  std::int64_t gain = 0; // of one piece served so; above 0
};

// How many pieces go over each arc so that the sum of gains is greatest: successive best paths
// (Ford and Fulkerson; Busacker and Gowen 1960). Exact.
std::vector<std::int64_t> share_piles(const std::vector<std::int64_t>& piles,
                                      const std::vector<std::int64_t>& wants,
                                      const std::vector<Arc>& arcs);

} // namespace leafwright::change
