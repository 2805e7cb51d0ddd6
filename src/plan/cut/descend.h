#pragma once

#include "plan/cut/search.h"

#include <cstdint>
#include <span>

namespace leafwright::cut {

/// Whole sheets of the given pool columns that cover `demand` at a cost of at most `cost`, by many
/// quick descents: take the whole parts of the linear programme over these columns, then one sheet
/// at a time by size of the fraction and by chance, and give up as soon as the programme says that
/// the rest would cost too much. No new patterns are looked for, so a descent takes milliseconds.
/// Stocks without limits only. Empty: none of `tries` descents arrived.
Sheets descend(Search& search, std::span<const int> columns, std::span<const std::int64_t> demand,
               std::int64_t cost, int tries, std::uint64_t number);

} // namespace leafwright::cut
