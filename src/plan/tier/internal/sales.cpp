#include "plan/supply/kits.h"
#include "plan/tier/account.h"
#include "plan/tier/substitution.h"
#include "plan/tier/value.h"

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <utility>

namespace leafwright::tiers {

namespace {

__extension__ using Wide = __int128;

// To the nearest minor unit, halves up.
Money share_of(const Money& whole, std::int64_t ppm) {
  constexpr std::int64_t million = 1'000'000;
  Money part = whole;
  part.minor = static_cast<std::int64_t>((Wide{whole.minor} * ppm * 2 + million) / (2 * million));
  return part;
}

// What kits weigh that their buyers changed, each kind worked out once.
class ChangedKits {
 public:
  explicit ChangedKits(const Project& project) : project_(project) {}

  // Nothing when the order takes the kit as its tier says.
  std::optional<Mass> mass_of(const Order& order, const OrderSwaps& swaps) {
    std::vector<Swap> taken = swaps.taken();
    if (taken.empty() && swaps.left_out.empty()) return std::nullopt;
    const auto alike = [](const Swap& a, const Swap& b) {
      return a.item == b.item && a.amount == b.amount;
    };
    const auto known = std::find_if(kinds_.begin(), kinds_.end(), [&](const Kind& one) {
      return one.tier == order.tier && one.left_out == swaps.left_out &&
             std::equal(one.taken.begin(), one.taken.end(), taken.begin(), taken.end(), alike);
    });
    if (known != kinds_.end()) return known->mass;
    const supply::KitKind kit =
        supply::kit_kind(project_, order.tier,
                         changed_includes(tier_at(project_, order.tier), swaps.left_out, taken), 1);
    const Mass mass = supply::mass_of_contents(project_, kit.kit_items).known;
    kinds_.push_back({order.tier, swaps.left_out, std::move(taken), mass});
    return mass;
  }

 private:
  struct Kind {
    int tier = -1;
    std::vector<ItemRef> left_out;
    std::vector<Swap> taken;
    Mass mass;
  };
  const Project& project_;
  std::vector<Kind> kinds_;
};

} // namespace

std::vector<Sale> sales_of(const Project& project) {
  std::vector<Sale> sales;
  const auto count = [&](const Sale& sale, std::int64_t orders) {
    const auto alike = [&](const Sale& one) {
      return one.tier == sale.tier && one.kits == sale.kits && one.top_up == sale.top_up &&
             one.off == sale.off && one.kit_mass == sale.kit_mass && one.open == sale.open;
    };
    auto known = std::find_if(sales.begin(), sales.end(), alike);
    if (known == sales.end()) known = sales.insert(sales.end(), sale);
    known->orders += orders;
  };
  const Money none{0, project.currency};
  TierValues values(project);
  ChangedKits changed(project);
  for (const Order& order : project.run.orders) {
    const OrderSwaps swaps = swaps_of(values, order);
    count({order.tier, order.quantity, swaps.to_pay * order.quantity, 0,
           changed.mass_of(order, swaps), (swaps.off * order.quantity).minor,
           order.status == OrderStatus::Open},
          1);
  }
  if (project.run.orders.empty()) {
    const std::vector<int> planned = supply::planned_kits(project);
    for (std::size_t tier = 0; tier < planned.size(); ++tier)
      if (planned[tier] > 0)
        count({static_cast<int>(tier), 1, none, 0, {}, 0, false}, planned[tier]);
  }
  std::stable_sort(sales.begin(), sales.end(),
                   [](const Sale& a, const Sale& b) { return a.tier < b.tier; });
  return sales;
}

OrderTerms terms_of(const Project& project, const Sale& sale) {
  const Tier& of = tier_at(project, sale.tier);
  const Selling& selling = project.selling;
  const Money none{0, project.currency};
  OrderTerms terms{none, none, none, none, none, {}, {}, true};
  terms.price = of.price.value_or(none) * sale.kits + sale.top_up - Money{sale.off, none.currency};
  if (of.shipping != Tier::Shipping::None) {
    const supply::KitMass mass =
        supply::mass_of_contents(project, supply::kit_kind(project, sale.tier, 1).kit_items);
    terms.mass = sale.kit_mass.value_or(mass.known) * sale.kits + project.run.wrapping;
    terms.unweighed = mass.unknown;
    terms.envelopes_unweighed = mass.envelopes_unknown;
    const auto step = std::find_if(
        selling.postage.begin(), selling.postage.end(),
        [&](const Selling::Postage& one) { return !one.up_to || terms.mass <= *one.up_to; });
    terms.postage_known = step != selling.postage.end();
    if (terms.postage_known) terms.postage = step->cost;
    terms.packing = selling.packing.value_or(none);
    if (of.shipping == Tier::Shipping::Charged)
      terms.charged = of.shipping_charge.value_or(terms.postage);
  }
  const Money paid = terms.price + terms.charged;
  if (paid.minor > 0)
    terms.fees = share_of(paid, selling.fee_ppm) + Money{selling.fee_fixed.minor, none.currency};
  return terms;
}

OrderTerms terms_of(const Project& project, int tier, int kits) {
  const Money none{0, project.currency};
  return terms_of(project, Sale{tier, kits, none, 1, {}, 0, false});
}

} // namespace leafwright::tiers
