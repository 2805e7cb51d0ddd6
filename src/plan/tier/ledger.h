#pragma once

#include "measure/index.h"
#include "model/project.h"

#include <cstdint>
#include <vector>

// What came in for the orders, what went back, and what is owed, in whole minor units: every total
// is the sum of the lines above it.

namespace leafwright::tiers {

struct LedgerAmounts {
  Money due;       // price and shipping of what is ordered
  Money paid;      // came in
  Money refunded;  // went back
  Money fees;      // kept back of what came in, see Selling
  Money booked;    // paid - refunded - fees
  Money owed;      // of what is due; a refund makes no new debt
  Money to_return; // came in beyond what is due, and has not gone back
};

// One purchase: the orders of a row.
struct LedgerLine : LedgerAmounts {
  std::vector<int> orders; // into Run::orders; empty: one that was set aside
  int set_aside = -1;      // into Run::set_aside
  bool told = false;       // the list says whether it is paid; else nothing is owed or booked
};

struct Ledger {
  std::vector<LedgerLine> lines; // orders first
  std::vector<int> line_of;      // by order: the line that it is the first of, else -1
  LedgerAmounts all;
  std::int64_t owing = 0, returning = 0; // lines
  bool amounts = false;                  // the list gives amounts, not only words
};
// The line of that order; nothing for one that shares the line of another.
inline const LedgerLine* line_of(const Ledger& ledger, int order) {
  return find_at(ledger.lines, at(ledger.line_of, order));
}
Ledger ledger_of(const Project& project);

} // namespace leafwright::tiers
