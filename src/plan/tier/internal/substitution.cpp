#include "plan/tier/substitution.h"

#include "measure/index.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <utility>

namespace leafwright::tiers {

namespace {

int pieces_of(const Selection& one) {
  return std::accumulate(one.counts.begin(), one.counts.end(), 0);
}

// Among selections of equal value.
bool preferred(const Selection& a, const Selection& b) {
  const int pieces_a = pieces_of(a), pieces_b = pieces_of(b);
  if (pieces_a != pieces_b) return pieces_a < pieces_b;
  return a.counts > b.counts;
}

void keep_best(std::vector<Selection>& list, Selection one, std::size_t best,
               bool (*before)(const Selection&, const Selection&)) {
  list.insert(std::upper_bound(list.begin(), list.end(), one, before), std::move(one));
  if (list.size() > best) list.pop_back();
}

// Selections by what they are worth, the best few of each worth. Which of two selections of equal
// worth is better does not change when the same is added to both, so the few are enough. Things are
// taken dearest first: a selection above the credit of which nothing can be left out is one within
// it and one more thing that is no dearer than any in it.
class Search {
 public:
  Search(std::span<const Offered> offered, std::int64_t credit, std::size_t best)
      : offered_(offered), credit_(credit), best_(best) {
    Selection none;
    none.counts.assign(offered.size(), 0);
    within_[0].push_back(std::move(none));
    std::vector<std::size_t> order(offered.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
      return offered[a].value > offered[b].value;
    });
    for (const std::size_t index : order)
      if (offered[index].value > 0) add(index);
  }

  std::vector<Selection> within() const {
    std::vector<Selection> found;
    for (auto worth = within_.rbegin(); worth != within_.rend() && found.size() < best_; ++worth)
      for (const Selection& one : worth->second)
        if (worth->first > 0 && found.size() < best_) found.push_back(one);
    return found;
  }
  std::vector<Selection> above() && { return std::move(above_); }

 private:
  void add(std::size_t index) {
    const Offered& one = offered_[index];
    const auto before = within_;
    for (const auto& [worth, selections] : before)
      for (const Selection& base : selections) {
        Selection more = base;
        for (int times = 1; times <= one.most; ++times) {
          more.counts[index] = times;
          more.value += one.value;
          if (more.value > credit_) {
            keep_best(above_, more, best_, [](const Selection& a, const Selection& b) {
              return a.value != b.value ? a.value < b.value : preferred(a, b);
            });
            break;
          }
          keep_best(within_[more.value], more, best_, preferred);
        }
      }
  }

  std::span<const Offered> offered_;
  std::int64_t credit_ = 0;
  std::size_t best_ = 0;
  std::map<std::int64_t, std::vector<Selection>> within_;
  std::vector<Selection> above_;
};

} // namespace

std::vector<Selection> best_within(std::span<const Offered> offered, std::int64_t credit,
                                   std::size_t best) {
  return Search(offered, credit, best).within();
}

std::vector<Selection> best_above(std::span<const Offered> offered, std::int64_t credit,
                                  std::size_t best) {
  return Search(offered, credit, best).above();
}

Credit credit_for(TierValues& values, int tier, std::span<const ItemRef> owned) {
  const Project& project = values.project();
  return credit_for(project, project.tiers.at(as_index(tier)), values.of(tier), owned);
}

namespace {

bool lists(std::span<const ItemRef> items, ItemRef item) {
  return std::find(items.begin(), items.end(), item) != items.end();
}

// The tutorial and the parts are made for the tier, and a gift is nothing that she pays for.
bool may_be_owned(const Inclusion& one) {
  return !one.gift && one.item.kind != ItemKind::Tutorial && one.item.kind != ItemKind::Parts;
}

// By the limits of the rule, whether it allows swaps or not.
Credit credit_by_limits(const Project& project, const Tier& tier, const TierValue& value,
                        std::span<const ItemRef> owned) {
  const SubstitutionRule& rule = tier.substitution;
  const Money none{0, project.currency};
  Credit credit{{}, {}, none, none};
  std::vector<std::pair<Money, ItemRef>> giving;
  for (std::size_t i = 0; i < tier.includes.size(); ++i) {
    const Inclusion& one = tier.includes[i];
    const TierValue::Line& line = value.lines.at(i);
    if (!may_be_owned(one) || !line.known || !lists(owned, one.item)) continue;
    if (rule.items_over && line.value.minor <= rule.items_over->minor) continue;
    giving.emplace_back(line.value, one.item);
  }
  std::stable_sort(giving.begin(), giving.end(),
                   [](const auto& a, const auto& b) { return a.first.minor > b.first.minor; });
  const std::size_t most = rule.most_swaps > 0 ? as_index(rule.most_swaps) : giving.size();
  for (const auto& [money, item] : giving) {
    if (credit.items.size() >= most) {
      credit.beyond.push_back(item);
      continue;
    }
    credit.items.push_back(item);
    credit.value = credit.value + money;
  }
  credit.credit = credit.value;
  if (rule.round_down_to.minor > 0)
    credit.credit.minor -= credit.credit.minor % rule.round_down_to.minor;
  return credit;
}

} // namespace

Credit credit_for(const Project& project, const Tier& tier, const TierValue& value,
                  std::span<const ItemRef> owned) {
  const Money none{0, project.currency};
  if (!tier.substitution.allowed) return {{}, {}, none, none};
  return credit_by_limits(project, tier, value, owned);
}

SwapAnswers swap_answers(const Project& project, int tier, std::span<const ItemRef> owned,
                         std::size_t best) {
  SwapAnswers answers;
  const Tier& of = project.tiers.at(as_index(tier));
  answers.credit = credit_for(project, of, value_of(project, tier), owned);
  std::vector<Offered> offered;
  for (const SwapChoice& choice : of.substitution.choices) {
    const std::optional<Money> worth =
        choice.value ? choice.value : value_of(project, choice.item, choice.amount);
    answers.worth.push_back(worth);
    offered.push_back({worth ? worth->minor : 0, choice.most});
  }
  const std::int64_t credit = answers.credit.credit.minor;
  if (credit <= 0) return answers;
  const auto answer = [&](const Selection& one) {
    const auto money = [&](std::int64_t minor) {
      return Money{std::max<std::int64_t>(minor, 0), project.currency};
    };
    return SwapAnswer{one.counts, money(one.value), money(credit - one.value),
                      money(one.value - credit)};
  };
  for (const Selection& one : best_within(offered, credit, best))
    answers.within.push_back(answer(one));
  if (of.substitution.top_up)
    for (const Selection& one : best_above(offered, credit, best))
      answers.above.push_back(answer(one));
  return answers;
}

namespace {

const SwapChoice* choice_of(const SubstitutionRule& rule, ItemRef item) {
  const auto found = std::find_if(rule.choices.begin(), rule.choices.end(),
                                  [&](const SwapChoice& one) { return one.item == item; });
  return found == rule.choices.end() ? nullptr : &*found;
}

// The maker's own value stands for the amount on the list; any other is worth its shop price.
SwapRequest wish_of(const Project& project, const SubstitutionRule& rule, const Swap& swap) {
  SwapRequest wish;
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

void meet_wishes(OrderSwaps& swaps, TierValues& values, const Order& order) {
  const Project& project = values.project();
  const Money none{0, project.currency};
  const SubstitutionRule& rule = tier_at(project, order.tier).substitution;
  swaps.credit = credit_for(values, order.tier, order.owned);
  if (swaps.credit.items.empty()) return;
  const std::int64_t credit = swaps.credit.credit.minor;
  for (const Swap& swap : order.swaps) {
    SwapRequest wish = wish_of(project, rule, swap);
    const auto before =
        std::count_if(swaps.wishes.begin(), swaps.wishes.end(), [&](const SwapRequest& one) {
          return one.swap.item == swap.item && one.answer == SwapRequest::Answer::Taken;
        });
    const Money worth = wish.worth.value_or(none);
    const SwapChoice* choice = choice_of(rule, swap.item);
    if (choice && before >= choice->most)
      wish.answer = SwapRequest::Answer::TooOften;
    else if (!rule.top_up && swaps.worth.minor + worth.minor > credit)
      wish.answer = SwapRequest::Answer::TooDear;
    else
      swaps.worth = swaps.worth + worth;
    swaps.wishes.push_back(wish);
  }
  const std::int64_t over = swaps.worth.minor - credit;
  swaps.remainder.minor = std::max<std::int64_t>(-over, 0);
  swaps.to_pay.minor = std::max<std::int64_t>(over, 0);
}

// What she owns of the kit and takes nothing for.
void settle_rest(OrderSwaps& swaps, TierValues& values, const Order& order, bool took_some) {
  const Project& project = values.project();
  const Tier& tier = tier_at(project, order.tier);
  const TierValue& value = values.of(order.tier);
  const bool credit = tier.if_owned == Tier::IfOwned::Credit;
  if (credit && !took_some) {
    swaps.credit = credit_by_limits(project, tier, value, order.owned);
    swaps.remainder = swaps.credit.credit;
    swaps.left_out = swaps.credit.items;
  }
  for (std::size_t i = 0; i < tier.includes.size(); ++i) {
    const ItemRef item = tier.includes[i].item;
    if (!may_be_owned(tier.includes[i]) || !lists(order.owned, item)) continue;
    if (lists(swaps.left_out, item) || lists(swaps.twice, item)) continue;
    if (tier.if_owned == Tier::IfOwned::NothingInstead)
      swaps.left_out.push_back(item);
    else if (tier.if_owned == Tier::IfOwned::Unsaid ? !lists(swaps.credit.beyond, item)
                                                    : credit && !value.lines.at(i).known)
      swaps.twice.push_back(item);
  }
  if (!credit) return;
  const Money price = tier.price.value_or(Money{0, project.currency});
  swaps.off = std::min(swaps.remainder, price,
                       [](const Money& a, const Money& b) { return a.minor < b.minor; });
  swaps.remainder = swaps.remainder - swaps.off;
}

} // namespace

std::vector<Swap> OrderSwaps::taken() const {
  std::vector<Swap> met;
  for (const SwapRequest& wish : wishes)
    if (wish.answer == SwapRequest::Answer::Taken) met.push_back(wish.swap);
  return met;
}

OrderSwaps swaps_of(TierValues& values, const Order& order) {
  const Money none{0, values.project().currency};
  OrderSwaps swaps{{{}, {}, none, none}, {}, none, none, none, none, {}, {}};
  if (!order.swaps.empty()) meet_wishes(swaps, values, order);
  const bool took_some = !swaps.taken().empty();
  if (took_some) swaps.left_out = swaps.credit.items; // nothing is left out for nothing
  if (!order.owned.empty()) settle_rest(swaps, values, order, took_some);
  return swaps;
}

std::vector<Inclusion> changed_includes(const Tier& tier, std::span<const ItemRef> left_out,
                                        std::span<const Swap> taken) {
  std::vector<Inclusion> includes;
  for (const Inclusion& one : tier.includes) {
    const bool out =
        !one.gift && std::find(left_out.begin(), left_out.end(), one.item) != left_out.end();
    if (!out) includes.push_back(one);
  }
  for (const Swap& swap : taken) {
    Inclusion one;
    one.item = swap.item;
    one.amount = swap.amount;
    one.place = tier.place;
    includes.push_back(std::move(one));
  }
  return includes;
}

} // namespace leafwright::tiers
