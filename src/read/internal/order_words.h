#pragma once

#include "measure/amounts/amounts.h"
#include "read/order_cells.h"

#include <functional>
#include <optional>
#include <string_view>
#include <vector>

// What stands in single cells of an order.

namespace leafwright::reading {

// The parts of a text between any of the characters `at`, blanks around them left away.
std::vector<std::string_view> split(std::string_view text, std::string_view at);

// The parts of a text between commas, where several of them together are one where `knows` knows
// them: a name may hold a comma itself.
std::vector<std::string_view> comma_parts(std::string_view text,
                                          const std::function<bool(std::string_view)>& knows);

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

// `12.50`, `$1,250.00`, `12,50 EUR`: the last mark is the decimal one where at most as many digits
// as the currency has stand behind it, and other marks stand between thousands. Nothing where it is
// in doubt (`1,234`).
std::optional<Money> amount_of(std::string_view text, const Currency& currency);

} // namespace leafwright::reading
