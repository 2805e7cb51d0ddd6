#include "plan/tier/order_swaps.h"

#include "measure/index.h"

#include <algorithm>

namespace leafwright::tiers {

namespace {

const SwapChoice* choice_of(const SubstitutionRule& rule, ItemRef item) {
  const auto found = std::find_if(rule.choices.begin(), rule.choices.end(),
                                  [&](const SwapChoice& one) { return one.item == item; });
  return found == rule.choices.end() ? nullptr : &*found;
}

// The maker's own value stands for the amount on the list; any other is worth its shop price.
Wish wish_of(const Project& project, const SubstitutionRule& rule, const Swap& swap) {
  Wish wish;
  wish.swap = swap;
  const SwapChoice* choice = choice_of(rule, swap.item);
  wish.listed = choice != nullptr;
  if (choice && !swap.amount_said) wish.swap.amount = choice->amount;
  if (choice && choice->value && wish.swap.amount == choice->amount)
    wish.worth = choice->value;
  else
    wish.worth = value_of(project, swap.item, wish.swap.amount);
  return wish;
}

} // namespace

OrderSwaps swaps_of(TierValues& values, const Order& order) {
  const Project& project = values.project();
  const Money none{0, project.currency};
  OrderSwaps swaps{{{}, {}, none, none}, {}, none, none, none};
  if (order.swaps.empty()) return swaps;
  const Tier& tier = project.tiers.at(as_index(order.tier));
  const SubstitutionRule& rule = tier.substitution;
  swaps.credit = credit_for(values, order.tier, order.owned);
  if (swaps.credit.items.empty()) return swaps;
  const std::int64_t credit = swaps.credit.credit.minor;
  for (const Swap& swap : order.swaps) {
    Wish wish = wish_of(project, rule, swap);
    const auto before =
        std::count_if(swaps.wishes.begin(), swaps.wishes.end(), [&](const Wish& one) {
          return one.swap.item == swap.item && one.answer == Wish::Answer::Taken;
        });
    const Money worth = wish.worth.value_or(none);
    const SwapChoice* choice = choice_of(rule, swap.item);
    if (choice && before >= choice->most)
      wish.answer = Wish::Answer::TooOften;
    else if (!rule.top_up && swaps.worth.minor + worth.minor > credit)
      wish.answer = Wish::Answer::TooDear;
    else
      swaps.worth = swaps.worth + worth;
    swaps.wishes.push_back(wish);
  }
  const std::int64_t over = swaps.worth.minor - credit;
  swaps.remainder.minor = std::max<std::int64_t>(-over, 0);
  swaps.to_pay.minor = std::max<std::int64_t>(over, 0);
  return swaps;
}

} // namespace leafwright::tiers
