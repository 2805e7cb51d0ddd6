#pragma once

#include "plan/cut/inside.h"

#include <cstdint>
#include <span>

namespace leafwright::cut {

/// Least cost any plan can have, shown by piece values: if no pattern of stock s is worth more than
/// `most[s]`, then a plan that covers the demand costs at least
///   (sum of demand x value - sum over limited stocks of limit x excess) / scale
/// (Farley 1990, with limits by Lagrange). Whole numbers throughout, rounded up at the end, so the
/// values may come from anywhere, round-off included.
std::int64_t value_bound(std::span<const Stock> stocks, std::span<const std::int64_t> demand,
                         std::span<const std::int64_t> value, std::span<const std::int64_t> most);

/// The same with the true areas as values: always at hand.
std::int64_t area_bound(const Job& job, const Normal& normal);

/// Costs are multiples of this.
std::int64_t price_step(std::span<const Stock> stocks);

/// a / b rounded up, b > 0.
__extension__ using Wide = __int128;
Wide divided_up(Wide a, Wide b);

} // namespace leafwright::cut
