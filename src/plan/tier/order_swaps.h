#pragma once

#include "plan/tier/substitution.h"

#include <optional>
#include <vector>

// What an order takes in exchange, held against the credit that its buyer has.

namespace leafwright::tiers {

struct Wish {
  enum class Answer {
    Taken,
    TooOften, // more often than the tier's list allows
    TooDear,  // beyond what is left of the credit, and no top-up is allowed
  };
  Swap swap;                  // its amount settled by the tier's list
  std::optional<Money> worth; // nothing without a price: it then counts as nil
  bool listed = false;        // on the tier's list
  Answer answer = Answer::Taken;
};

// All of one kit: an order for several changes each of them alike.
struct OrderSwaps {
  Credit credit; // empty where the tier allows no swaps or she owns nothing of it
  std::vector<Wish>
      wishes;      // in the order of Order::swaps; none without something that gives credit
  Money worth;     // of what is taken
  Money remainder; // of the credit
  Money to_pay;    // beyond the credit: only where the rule allows a top-up
};
// Wishes are met in the order in which they were written, as long as the credit lasts; without a
// top-up what is taken is never worth more than the credit. A buyer without wishes keeps her kit as
// it is, and her credit is nil.
OrderSwaps swaps_of(TierValues& values, const Order& order);

} // namespace leafwright::tiers
