#pragma once

#include "measure/letters.h"
#include "model/run.h"

#include <algorithm>
#include <array>
#include <string>
#include <string_view>

namespace leafwright {

// What the column of a roster is called, in small letters, that holds the maker's own number of an
// order.
inline constexpr std::array<std::string_view, 4> number_columns = {"number", "order number",
                                                                   "order", "no."};

inline bool is_number_column(std::string_view column) {
  return std::ranges::find(number_columns, small_letters(column)) != number_columns.end();
}

// The order's own number; empty when its roster has none beside the names.
inline std::string_view number_of(const Order& order) {
  for (const Order::Other& other : order.others)
    if (!other.text.empty() && is_number_column(other.column)) return other.text;
  return {};
}

} // namespace leafwright
