#pragma once

#include "model/project.h"
#include "plan/tier/value.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

// What a buyer who owns some of a tier may take instead: the best uses of her credit from the
// maker's own list, found by exact search.

namespace leafwright::tiers {

// --- The search by itself ------------------------------------------------------------------------

struct Offered {
  std::int64_t value = 0; // minor units; nil or less is never chosen
  int most = 1;
};
struct Selection {
  std::vector<int> counts; // by Offered
  std::int64_t value = 0;
  friend bool operator==(const Selection&, const Selection&) = default;
};
// The `best` selections worth at most `credit`: the dearest first, among equals the one with fewer
// pieces, then with more of what stands earlier in the list. The empty selection is none.
std::vector<Selection> best_within(std::span<const Offered> offered, std::int64_t credit,
                                   std::size_t best);
// The `best` selections worth more than `credit` of which nothing can be left out without coming
// within it: the cheapest first, ties as above.
std::vector<Selection> best_above(std::span<const Offered> offered, std::int64_t credit,
                                  std::size_t best);

// --- In a project --------------------------------------------------------------------------------

struct Credit {
  std::vector<ItemRef> items;  // what gives it, dearest first
  std::vector<ItemRef> beyond; // would give some as well, but for the limit on swaps
  Money value;                 // what they are worth in the tier
  Money credit;                // by the maker's rule, rounded down
};
// Owned things that the tier holds for its price give credit, if the rule takes them; with a limit
// on swaps the dearest count. The tutorial and the parts are made for the tier: nobody owns them.
Credit credit_for(TierValues& values, int tier, std::span<const ItemRef> owned);
Credit credit_for(const Project& project, const Tier& tier, const TierValue& value,
                  std::span<const ItemRef> owned);

struct SwapAnswer {
  std::vector<int> counts; // by SubstitutionRule::choices
  Money value;
  Money remainder; // of the credit
  Money to_pay;    // beyond the credit: only where the rule allows a top-up
};
struct SwapAnswers {
  Credit credit;
  std::vector<std::optional<Money>> worth; // of each choice; nothing when it has no price
  std::vector<SwapAnswer> within;
  std::vector<SwapAnswer> above; // empty unless the rule allows a top-up
};
SwapAnswers swap_answers(const Project& project, int tier, std::span<const ItemRef> owned,
                         std::size_t best = 5);

// What an order takes in exchange, held against the credit that its buyer has.

struct SwapRequest {
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
  std::vector<SwapRequest>
      wishes;      // in the order of Order::swaps; none without something that gives credit
  Money worth;     // of what is taken
  Money remainder; // of the credit: it lapses
  Money off;       // of the credit: it comes off the price of the kit
  Money to_pay;    // beyond the credit: only where the rule allows a top-up
  std::vector<ItemRef> left_out; // of her kit
  std::vector<ItemRef> twice;    // owned and in her kit, and nobody has said what then
  std::vector<Swap> taken() const;
};
// Wishes are met in the order in which they were written, as long as the credit lasts; without a
// top-up what is taken is never worth more than the credit. Of a buyer whose wishes come to
// nothing, or who has none, the tier says what becomes of what she owns (Tier::if_owned).
OrderSwaps swaps_of(TierValues& values, const Order& order);

// What a kit of the tier holds for a buyer who takes something instead of what she owns; gifts stay
// in it.
std::vector<Inclusion> changed_includes(const Tier& tier, std::span<const ItemRef> left_out,
                                        std::span<const Swap> taken);

} // namespace leafwright::tiers
