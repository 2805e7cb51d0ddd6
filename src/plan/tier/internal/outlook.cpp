#include "plan/tier/outlook.h"

#include "measure/index.h"

#include <algorithm>
#include <cstddef>
#include <numeric>
#include <utility>

namespace leafwright::tiers {

namespace {

__extension__ using Wide = __int128;

std::size_t index(int i) { return as_index(i); }

// whole x part / of to the nearest, halves away from nil.
std::int64_t scaled(std::int64_t whole, std::int64_t part, std::int64_t of) {
  const Wide twice = Wide{whole} * part * 2;
  return static_cast<std::int64_t>((twice + (twice < 0 ? -of : of)) / (Wide{of} * 2));
}

} // namespace

BreakEven break_even(const std::function<std::int64_t(int)>& margin, int most) {
  BreakEven found;
  int since = 0; // no loss from here to n
  for (int n = 1; n <= most; ++n) {
    found.searched = n;
    if (margin(n) < 0) {
      since = 0;
      continue;
    }
    if (found.first == 0) found.first = n;
    if (since == 0) since = n;
    if (n >= 2 * since - 1) {
      found.lasting = since;
      return found;
    }
  }
  return found;
}

namespace {

// What one tier sold by itself leaves, everything bought new.
class AloneMargin {
 public:
  AloneMargin(const Project& project, int tier, const supply::CuttingPlan& reference)
      : tier_(index(tier)), each_(terms_of(project, tier).brought().minor),
        kits_(project.tiers.size(), 0),
        all_new_(without_stock(project)), kind_{supply::kit_kind(all_new_, tier, 1)},
        estimate_(all_new_, reference), least_(all_new_, supply::CuttingPlan{}),
        area_bounds_(
            std::all_of(project.stocks.begin(), project.stocks.end(),
                        [](const Stock& one) { return supply::sheet_sizes_of(one).size() <= 1; })) {
  }

  bool exact() const { return exact_; }

  std::int64_t operator()(int n) {
    kits_.at(tier_) = n;
    // The paper of the pieces alone: no cutting plan does with less.
    const std::int64_t most = left(n, least_(kits_));
    if (area_bounds_ && most < 0) return most;
    if (plans_ == most_plans) {
      exact_ = false;
      return left(n, estimate_(kits_));
    }
    ++plans_;
    cut::Effort brief;
    brief.work = 20'000'000;
    kind_.front().kits = n;
    const supply::Buying found = bought(brief);
    const std::int64_t least = left(n, found.total);
    // A plan of brief effort is a plan; only a loss may come of the brevity, unless no plan at
    // all could make up for it.
    if (least >= 0 || (found.at_least && left(n, *found.at_least) < 0)) return least;
    return left(n, bought({}).total);
  }

 private:
  static constexpr int most_plans = 40; // a tier that hardly pays must not keep the maker waiting

  static Project without_stock(Project project) {
    project.pictures.clear();
    project.run.in_hand.clear();
    return project;
  }
  supply::Buying bought(const cut::Effort& effort) const {
    return supply::buying_for(all_new_, kind_, effort, cut::Objective::SheetCount);
  }
  std::int64_t left(int n, const Money& goods) const { return each_ * n - goods.minor; }

  std::size_t tier_;
  std::int64_t each_;
  std::vector<int> kits_;
  Project all_new_;
  std::vector<supply::KitKind> kind_; // the one that is sold
  supply::RunCost estimate_, least_;
  bool area_bounds_;
  int plans_ = 0;
  bool exact_ = true;
};

} // namespace

BreakEven break_even_of(const Project& project, int tier, const supply::CuttingPlan& reference,
                        int most) {
  AloneMargin margin(project, tier, reference);
  BreakEven found = break_even([&](int n) { return margin(n); }, most);
  found.exact = margin.exact();
  return found;
}

std::vector<int> mix_of(std::span<const int> planned, int all) {
  std::vector<int> kits(planned.size(), 0);
  if (std::all_of(planned.begin(), planned.end(), [](int n) { return n <= 0; })) return kits;
  const int whole = std::accumulate(planned.begin(), planned.end(), 0);
  // Whole runs first, so that a thousand kits need no thousand steps.
  for (std::size_t i = 0; i < kits.size(); ++i) kits[i] = planned[i] * (all / whole);
  for (int n = all / whole * whole; n < all; ++n) {
    std::size_t next = kits.size();
    for (std::size_t i = 0; i < kits.size(); ++i) {
      if (planned[i] <= 0) continue;
      // planned[i] / (2 kits[i] + 1) is largest.
      if (next == kits.size() || std::int64_t{planned[i]} * (2 * kits[next] + 1) >
                                     std::int64_t{planned[next]} * (2 * kits[i] + 1))
        next = i;
    }
    ++kits[next];
  }
  return kits;
}

Outlook::Outlook(const Project& project, const Account& account, const supply::Buying& buying)
    : project_(project), account_(account), kits_(buying.kits), goods_(buying.total),
      cost_(project, buying.sheets), tiers_(project.tiers.size()) {
  kits_.resize(project.tiers.size(), 0);
  planned_ = std::accumulate(kits_.begin(), kits_.end(), 0);
  planned_cost_ = cost_(kits_).minor;
  for (std::size_t i = 0; i < tiers_.size(); ++i) {
    const OrderTerms terms = terms_of(project, static_cast<int>(i));
    tiers_[i].one_brought = (terms.price + terms.charged).minor;
    tiers_[i].one_selling = (terms.fees + terms.postage + terms.packing).minor;
  }
  for (const TierAccount& one : account.tiers) {
    PerTier& tier = tiers_.at(index(one.tier));
    tier.brought = (one.price + one.charged).minor;
    tier.selling = (one.fees + one.postage + one.packing).minor;
  }
}

// The quick cost knows neither the kits that buyers changed nor the exact cutting plan. What it is
// off at the planned number is shared out in proportion to it, so that fewer kits never cost more.
std::int64_t Outlook::goods_of(const std::vector<int>& part_of_planned) const {
  if (part_of_planned == kits_) return goods_.minor;
  if (planned_cost_ > 0) return scaled(goods_.minor, cost_(part_of_planned).minor, planned_cost_);
  const int part = std::accumulate(part_of_planned.begin(), part_of_planned.end(), 0);
  return planned_ > 0 ? scaled(goods_.minor, part, planned_) : 0;
}

// Kits beyond the planned ones are orders of one; fewer are the planned ones in proportion.
Scenario Outlook::of(std::vector<int> kits) const {
  const Money none{0, project_.currency};
  Scenario scenario{{}, 0, none, none, none, account_.outlays, none};
  std::vector<int> of_planned(kits.size(), 0);
  for (std::size_t i = 0; i < kits.size(); ++i) {
    const PerTier& tier = tiers_[i];
    const int known = std::min(kits[i], kits_[i]);
    of_planned[i] = known;
    scenario.all += kits[i];
    scenario.brought.minor += tier.one_brought * (kits[i] - known);
    scenario.selling.minor += tier.one_selling * (kits[i] - known);
    if (kits_[i] <= 0) continue;
    scenario.brought.minor += scaled(tier.brought, known, kits_[i]);
    scenario.selling.minor += scaled(tier.selling, known, kits_[i]);
  }
  scenario.goods.minor = goods_of(of_planned);
  if (of_planned != kits) scenario.goods.minor += cost_(kits).minor - cost_(of_planned).minor;
  scenario.result = scenario.brought - scenario.goods - scenario.selling - scenario.outlays;
  scenario.kits = std::move(kits);
  return scenario;
}

Scenario Outlook::at(int kits) const { return of(mix_of(kits_, std::max(kits, 0))); }

Scenario Outlook::beside(int tier, int more) const {
  std::vector<int> kits = kits_;
  kits.at(index(tier)) = std::max(0, kits.at(index(tier)) + more);
  return of(std::move(kits));
}

} // namespace leafwright::tiers
