#pragma once

#include "model/supply.h"

#include <algorithm>
#include <cstdint>
#include <optional>

namespace leafwright::supply {

// Minor units are too coarse: a sheet of a pack rarely costs whole ones.
inline constexpr std::int64_t finer = 1000;

// The cheapest way to a sheet of that size, in finer parts of a minor unit, rounded down. Every
// offer has a price.
inline std::int64_t price_of_sheet(const Stock& stock, Size size) {
  std::optional<std::int64_t> best;
  for (const SheetOffer& offer : stock.sheets) {
    if (offer.size != size) continue;
    const std::int64_t price =
        std::max<std::int64_t>(1, offer.sold.price->minor * finer / std::max(1, offer.sold.count));
    best = best ? std::min(*best, price) : price;
  }
  return best.value_or(1);
}

inline bool all_priced(const Stock& stock) {
  return std::ranges::all_of(stock.sheets, [](const SheetOffer& offer) {
    return offer.sold.price && offer.sold.price->minor > 0;
  });
}

} // namespace leafwright::supply
