#pragma once

#include "model/project.h"

#include <cstddef>
#include <cstdint>
#include <string_view>
#include <vector>

// The list of orders as a table (RFC 4180). Columns are found by their names, in any order:
//   name or number, tier, quantity, owned, swaps, region, note, date, address, status
// and some everyday other words for these. What has another name is kept with the order.

namespace leafwright {

struct Roster {
  std::vector<Order> orders;    // in the order of the rows
  std::vector<Order> set_aside; // rows whose status says that they are no orders (any more)
  std::size_t rows = 0;         // under the first line, blank ones not counted
  std::vector<int> left_out;    // lines of rows that could not be counted
  // With places in `file`. Rows that cannot be counted are warnings, followed by one that sums them
  // up; an error means that no row could be read at all. Codes "order-...", "roster-...".
  Findings findings;
};

// What each column may be called, ours first: whatever a form calls it, it need not be renamed.
std::vector<std::vector<std::string_view>> roster_columns();

Roster read_roster(std::string_view csv, const Project& project, std::int32_t file);

} // namespace leafwright
