#pragma once

#include "plan/supply/buying.h"
#include "plan/supply/kits.h"
#include "plan/tier/account.h"

#include <cstdint>
#include <functional>
#include <span>
#include <vector>

// What if more or fewer sign up: the margin as a function of the kits, with its jumps where a
// further pack must be bought.

namespace leafwright::tiers {

// From how many kits on nothing is lost. A pack more can turn a gain into a loss again, so there
// are two numbers.
struct BreakEven {
  int first = 0;   // the first number of kits with a margin of nil or more; 0: none found
  int lasting = 0; // from here on, whatever the number; 0: not proven within `searched`
  int searched = 0;
  bool exact = true; // each number by a cutting plan of its own; else the last ones are estimates
};
// `margin` must be such that two runs made as one never do worse than the two apart: packs bought
// together are never more than packs bought twice. Then no loss from n to 2n - 1 proves that there
// is none from n on, for every larger number is a sum of these.
BreakEven break_even(const std::function<std::int64_t(int)>& margin, int most);

// One tier sold by itself, everything bought new: nothing in hand, no outlays. Each number is
// reckoned with its own cutting plan; after forty plans by the yield of `reference`.
BreakEven break_even_of(const Project& project, int tier, const supply::CuttingPlan& reference,
                        int most = 400);

struct Scenario {
  std::vector<int> kits; // by tier
  int all = 0;
  Money brought; // price and charges
  Money goods;
  Money selling; // fees, postage, packing
  Money outlays;
  Money result;
};

// The run with more or fewer kits in the proportions of the planned ones: kits come one by one, the
// next always to the tier that is furthest behind its share (Sainte-Laguë's divisors), so that the
// planned number brings exactly the planned kits.
class Outlook {
 public:
  // `account` and `buying` of the kits as planned; their figures are met exactly at that number.
  Outlook(const Project& project, const Account& account, const supply::Buying& buying);

  int planned() const { return planned_; }
  Scenario at(int kits) const;
  // One kit more (or, with -1, fewer) of one tier, all others as planned.
  Scenario beside(int tier, int more) const;

 private:
  Scenario of(std::vector<int> kits) const;
  std::int64_t goods_of(const std::vector<int>& part_of_planned) const;

  const Project& project_;
  Account account_;
  std::vector<int> kits_;
  int planned_ = 0;
  Money goods_;
  supply::RunCost cost_;
  std::int64_t planned_cost_ = 0; // the quick one; goods_ is the exact one
  struct PerTier {
    std::int64_t brought = 0, selling = 0; // of all its kits
    std::int64_t one_brought = 0, one_selling = 0;
  };
  std::vector<PerTier> tiers_;
};

// The kits by tier when `all` are sold, in the proportions of `planned`.
std::vector<int> mix_of(std::span<const int> planned, int all);

} // namespace leafwright::tiers
