#include "measure/index.h"
#include "model/shared_parcel.h"
#include "plan/supply/kits.h"
#include "plan/tier/account.h"
#include "plan/tier/substitution.h"
#include "plan/tier/value.h"

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <map>
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

namespace {

bool alike(const Sale& a, const Sale& b) {
  return a.tier == b.tier && a.kits == b.kits && a.top_up == b.top_up && a.off == b.off &&
         a.kit_mass == b.kit_mass && a.open == b.open && a.in_another == b.in_another &&
         a.picked_up == b.picked_up && a.along == b.along;
}

Mass mass_of_kits(const Project& project, const Sale& sale) {
  if (sale.kit_mass) return *sale.kit_mass * sale.kits;
  return supply::mass_of_contents(project, supply::kit_kind(project, sale.tier, 1).kit_items)
             .known *
         sale.kits;
}

// One shipping for a parcel of several orders: the dearest of theirs, by what all of it weighs.
void share_parcel(const Project& project, std::vector<Sale>& sales,
                  const std::vector<int>& orders) {
  Mass all{};
  for (const int order : orders) all += mass_of_kits(project, sales.at(as_index(order)));
  int payer = -1;
  Money dearest;
  for (const int order : orders) {
    Sale& sale = sales.at(as_index(order));
    sale.along = Mass{all.mg - mass_of_kits(project, sale).mg};
    const Money charged = terms_of(project, sale).charged;
    if (payer >= 0 && charged.minor <= dearest.minor) continue;
    payer = order;
    dearest = charged;
  }
  for (const int order : orders) {
    Sale& sale = sales.at(as_index(order));
    sale.in_another = order != payer;
    if (sale.in_another) sale.along = {};
  }
}

} // namespace

std::vector<Sale> sales_by_order(const Project& project) {
  std::vector<Sale> sales;
  TierValues values(project);
  ChangedKits changed(project);
  for (const Order& order : project.run.orders) {
    const OrderSwaps swaps = swaps_of(values, order);
    Sale sale;
    sale.tier = order.tier;
    sale.kits = order.quantity;
    sale.top_up = swaps.to_pay * order.quantity;
    sale.orders = 1;
    sale.kit_mass = changed.mass_of(order, swaps);
    sale.off = (swaps.off * order.quantity).minor;
    sale.open = order.status == OrderStatus::Open;
    sale.picked_up = order.picked_up;
    sales.push_back(sale);
  }
  std::map<int, std::vector<int>> parcels;
  const std::vector<int> firsts = shared_parcels(project);
  for (std::size_t i = 0; i < firsts.size(); ++i) parcels[firsts[i]].push_back(static_cast<int>(i));
  for (const auto& [first, orders] : parcels)
    if (orders.size() > 1) share_parcel(project, sales, orders);
  return sales;
}

std::vector<Sale> sales_of(const Project& project) {
  std::vector<Sale> sales;
  const auto count = [&](const Sale& sale, std::int64_t orders) {
    auto known =
        std::find_if(sales.begin(), sales.end(), [&](const Sale& one) { return alike(one, sale); });
    if (known == sales.end()) {
      known = sales.insert(sales.end(), sale);
      known->orders = 0;
    }
    known->orders += orders;
  };
  for (const Sale& sale : sales_by_order(project)) count(sale, 1);
  if (project.run.orders.empty()) {
    const std::vector<int> planned = supply::planned_kits(project);
    for (std::size_t tier = 0; tier < planned.size(); ++tier) {
      Sale sale;
      sale.tier = static_cast<int>(tier);
      sale.top_up = Money{0, project.currency};
      if (planned[tier] > 0) count(sale, planned[tier]);
    }
  }
  std::stable_sort(sales.begin(), sales.end(),
                   [](const Sale& a, const Sale& b) { return a.tier < b.tier; });
  return sales;
}

Money fees_on(const Project& project, const Money& paid) {
  return share_of(paid, project.selling.fee_ppm) +
         Money{project.selling.fee_fixed.minor, project.currency};
}

OrderTerms terms_of(const Project& project, const Sale& sale) {
  const Tier& of = tier_at(project, sale.tier);
  const Selling& selling = project.selling;
  const Money none{0, project.currency};
  OrderTerms terms;
  terms.price = terms.charged = terms.fees = terms.postage = terms.packing = none;
  terms.price = of.price.value_or(none) * sale.kits + sale.top_up - Money{sale.off, none.currency};
  if (of.shipping != Tier::Shipping::None && !sale.in_another) {
    const supply::KitMass mass =
        supply::mass_of_contents(project, supply::kit_kind(project, sale.tier, 1).kit_items);
    terms.mass = sale.kit_mass.value_or(mass.known) * sale.kits + sale.along + project.run.wrapping;
    terms.unweighed = mass.unknown;
    terms.envelopes_unweighed = mass.envelopes_unknown;
    const auto step = std::find_if(
        selling.postage.begin(), selling.postage.end(),
        [&](const Selling::Postage& one) { return !one.up_to || terms.mass <= *one.up_to; });
    terms.postage_known = sale.picked_up || step != selling.postage.end();
    if (!sale.picked_up && terms.postage_known) terms.postage = step->cost;
    terms.packing = selling.packing.value_or(none);
    if (of.shipping == Tier::Shipping::Charged && !sale.picked_up)
      terms.charged = of.shipping_charge.value_or(terms.postage);
  }
  const Money paid = terms.price + terms.charged;
  if (paid.minor > 0) terms.fees = fees_on(project, paid);
  return terms;
}

OrderTerms terms_of(const Project& project, int tier, int kits) {
  Sale sale;
  sale.tier = tier;
  sale.kits = kits;
  sale.top_up = Money{0, project.currency};
  return terms_of(project, sale);
}

} // namespace leafwright::tiers
