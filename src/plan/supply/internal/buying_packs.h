#pragma once

#include <cstdint>
#include <utility>
#include <vector>

namespace leafwright::supply {

// Which packs to buy so that every need is met at the least cost. Knows numbers only.

struct PackOffer {
  std::int64_t price = 0;                          // minor units
  std::vector<std::pair<int, std::int64_t>> holds; // index of the need, units; no need twice
};

struct PackChoice {
  std::vector<std::int64_t> packs; // by offer
  bool exact = true;               // no other choice costs less
};

// `needs` in units. Costs least; among those the fewest packs, then the least left over. Needs
// served by offers of a single kind are met by dynamic programming over the units; packs that hold
// several kinds tie their needs together and are enumerated with a bound. A need that no offer
// serves stays unmet.
PackChoice choose_packs(const std::vector<std::int64_t>& needs,
                        const std::vector<PackOffer>& offers);

} // namespace leafwright::supply
