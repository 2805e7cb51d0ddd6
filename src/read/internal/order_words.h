#pragma once

#include "read/order_cells.h"

#include <string_view>
#include <vector>

// What stands in single cells of an order.

namespace leafwright::reading {

// The parts of a text between any of the characters `at`, blanks around them left away.
std::vector<std::string_view> split(std::string_view text, std::string_view at);

struct WantedKits {
  int tier = -1;
  int kits = 1;
};
struct WantedReading {
  std::vector<WantedKits> kits; // not empty unless there is an error among the findings
  Findings findings;
  std::vector<OrderReading::Unknown> unknown;
};
// Tiers and how many of each: `full`, `2x Full kit; parts`, `Full kit x 2`, a column for each tier,
// and a quantity that may not contradict them.
WantedReading read_wanted(const OrderCells& cells, const Project& project, const OrderNames& names);

} // namespace leafwright::reading
