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

BreakEven break_even_of(const Project& project, int tier, const supply::RunSheets& reference,
                        int most) {
  Project all_new = project;
  all_new.pictures.clear();
  all_new.run.in_hand.clear();
  const supply::RunCost cost(all_new, reference);
  const std::int64_t each = terms_of(project, tier).brought().minor;
  std::vector<int> kits(project.tiers.size(), 0);
  const auto margin = [&](int n) {
    kits.at(index(tier)) = n;
    return each * n - cost(kits).minor;
  };
  return break_even(margin, most);
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
  cost_off_ = buying.total.minor - cost_(kits_).minor;
  for (std::size_t i = 0; i < tiers_.size(); ++i) {
    std::vector<int> one(tiers_.size(), 0);
    one[i] = 1;
    tiers_[i].takes_goods = cost_(one).minor != 0;
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

// Kits beyond the planned ones are orders of one; fewer are the planned ones in proportion.
Scenario Outlook::of(std::vector<int> kits) const {
  const Money none{0, project_.currency};
  Scenario scenario{{}, 0, none, none, none, account_.outlays, none};
  for (std::size_t i = 0; i < kits.size(); ++i) {
    const PerTier& tier = tiers_[i];
    const int known = std::min(kits[i], kits_[i]);
    scenario.all += kits[i];
    scenario.brought.minor += tier.one_brought * (kits[i] - known);
    scenario.selling.minor += tier.one_selling * (kits[i] - known);
    if (kits_[i] <= 0) continue;
    scenario.brought.minor += scaled(tier.brought, known, kits_[i]);
    scenario.selling.minor += scaled(tier.selling, known, kits_[i]);
  }
  // Kits that buyers changed are not in the quick cost: their part falls and grows with the run, as
  // far as it takes goods at all.
  scenario.goods.minor = cost_(kits).minor;
  std::int64_t planned = 0, now = 0;
  for (std::size_t i = 0; i < kits.size(); ++i)
    if (tiers_[i].takes_goods) {
      planned += kits_[i];
      now += kits[i];
    }
  if (planned > 0) scenario.goods.minor += scaled(cost_off_, std::min(now, planned), planned);
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
