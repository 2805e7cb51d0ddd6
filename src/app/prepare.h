#pragma once

#include "guide/parcels/parcels.h"
#include "plan/supply/buying.h"
#include "plan/supply/sheets.h"
#include "read/read.h"

#include <optional>
#include <string>
#include <vector>

namespace leafwright::app {

// A project read, planned and checked: what every document starts from.
struct Prepared {
  Reading reading;
  supply::KitSheets sheets; // of one kit
  Findings findings;        // of reading and of the rules, in that order
  // What the whole run takes, with findings of its own: worked out only for the documents that need
  // it. They stay apart from `findings`, so that a tutorial is the same whatever is made beside it.
  std::optional<supply::Buying> buying;
  // What is packed for whom, and what is amiss with the orders: by take_orders(), likewise.
  std::optional<guide::PackingList> packing;
  Findings order_findings;
};

// With errors of reading the plan is left out: it would speak of things that are not there.
// `kept` is from preparing an earlier state, and serves the next; it changes nothing.
Prepared prepare(const std::string& path, const std::vector<std::string>& overrides,
                 supply::PlanCache* kept = nullptr);
Prepared prepare(Reading reading, supply::PlanCache* kept = nullptr);

// Adds the buying and cutting of the kits that are ordered or, before that, expected. Takes seconds
// where a stock is hard to cut well; the effort is for each stock.
void plan_run(Prepared& prepared, const cut::Effort& effort);
void plan_run(Prepared& prepared, double seconds); // with no one to listen

} // namespace leafwright::app
