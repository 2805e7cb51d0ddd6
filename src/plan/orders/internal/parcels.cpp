#include "plan/orders/parcels.h"

#include "language/agreement.h"
#include "language/words.h"
#include "measure/index.h"
#include "model/shared_parcel.h"
#include "plan/supply/buying.h"
#include "plan/tier/substitution.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <utility>
#include <vector>

namespace leafwright::orders {

namespace {

constexpr int most_kits = 100'000'000; // of one kind: what a hostile list may add up to

// Orders alike have equal keys.
std::string key_of(int tier, const Change& change) {
  std::string key = fmt::format("{:06d}", tier);
  for (const ItemRef item : change.left_out)
    key += fmt::format(" -{}.{}", static_cast<int>(item.kind), item.index);
  for (const Swap& swap : change.taken)
    key += fmt::format(" +{}.{}.{}.{}.{}.{}.{}.{}x{}", static_cast<int>(swap.item.kind),
                       swap.item.index, static_cast<int>(swap.amount.kind), swap.amount.count,
                       swap.amount.numerator, swap.amount.denominator, swap.amount.length.nm,
                       swap.amount.piece.width.nm, swap.amount.piece.height.nm);
  return key;
}

// What becomes of her wishes, as far as it is not what she asked for.
class WishTeller {
 public:
  WishTeller(const Project& project, const Order& order, Findings& findings)
      : project_(project), order_(order), tier_(project.tiers.at(as_index(order.tier))),
        findings_(findings) {}

  void no_swaps() {
    tell("order-no-swaps", fmt::format("{} asks for a swap in {}", order_.name, tier_.name),
         "a tier with a <swap> rule", as_it_is);
  }
  void no_credit() {
    tell("order-no-credit",
         fmt::format("{} asks for a swap, but owns nothing that {} gives credit for", order_.name,
                     tier_.name),
         "an owned thing that the tier holds, with a price", as_it_is);
  }
  void owned_twice(const std::vector<ItemRef>& things) {
    findings_.push_back({Severity::Warning,
                         "order-owned-twice",
                         order_.place,
                         fmt::format("{} owns {}, and {} holds {} too", order_.name, names(things),
                                     tier_.name, words::it_or_them(std::ssize(things))),
                         "a swap, or if-owned on the tier",
                         "it is packed all the same; ask her, or say what owners get: "
                         "if-owned=\"nothing-instead\", \"credit\" or \"as-it-is\"",
                         {}});
  }
  void tell_all(const tiers::OrderSwaps& swaps) {
    if (!swaps.credit.beyond.empty())
      tell("order-many-swaps",
           fmt::format("{} owns {} things of {}", order_.name,
                       swaps.credit.items.size() + swaps.credit.beyond.size(), tier_.name),
           fmt::format("at most {} changed for others", swaps.credit.items.size()),
           fmt::format("only {} is left out of the kit", names(swaps.credit.items)));
    std::vector<ItemRef> too_dear;
    for (const tiers::SwapRequest& wish : swaps.wishes) {
      one(wish);
      if (wish.answer == tiers::SwapRequest::Answer::TooDear) too_dear.push_back(wish.swap.item);
    }
    const std::string credit = money_text(swaps.credit.credit);
    if (!too_dear.empty())
      tell("order-over-credit",
           fmt::format("{} takes more than the credit of {} covers: {} beside what is worth {}",
                       order_.name, credit, names(too_dear), money_text(swaps.worth)),
           "swaps within the credit",
           "what is beyond it is not packed; write to the buyer, or let the tier take a top-up");
    if (swaps.to_pay.minor > 0)
      tell("order-top-up",
           fmt::format("{} takes things worth {} for a credit of {}", order_.name,
                       money_text(swaps.worth), credit),
           fmt::format("{} paid with the order", money_text(swaps.to_pay * order_.quantity)),
           "ask for it; the slip says so", Severity::Note);
  }

 private:
  static constexpr const char* as_it_is = "the kit is packed as the tier says; write to the buyer";

  void one(const tiers::SwapRequest& wish) {
    const std::string name = item_name(project_, wish.swap.item);
    if (wish.answer == tiers::SwapRequest::Answer::TooOften) {
      tell("order-many-swaps",
           fmt::format("{} takes {} more often than {} allows", order_.name, name, tier_.name),
           "what the tier's list allows", "what is too much is not packed; write to the buyer");
      return;
    }
    if (!wish.listed && !tier_.substitution.choices.empty())
      tell("order-off-list",
           fmt::format("{} takes {}, which {} does not offer for a swap", order_.name, name,
                       tier_.name),
           "something on the tier's list",
           "it is packed as far as the credit allows; write to the buyer");
    if (!wish.worth)
      tell("order-unpriced", fmt::format("{} takes {}, which has no price", order_.name, name),
           "a worth to set against the credit",
           "it is packed and counts as nil; give it a price, or a value on the tier's list");
  }

  std::string names(const std::vector<ItemRef>& items) const {
    std::vector<std::string> all;
    for (const ItemRef item : items) all.push_back(item_name(project_, item));
    return words::listed(all);
  }

  void tell(std::string code, std::string found, std::string expected, std::string fix,
            Severity severity = Severity::Warning) {
    findings_.push_back({severity,
                         std::move(code),
                         order_.swaps_place.line > 0 ? order_.swaps_place : order_.place,
                         std::move(found),
                         std::move(expected),
                         std::move(fix),
                         {}});
  }

  const Project& project_;
  const Order& order_;
  const Tier& tier_;
  Findings& findings_;
};

} // namespace

Change change_of(tiers::TierValues& values, const Order& order, Findings& findings) {
  const Project& project = values.project();
  const Money none{0, project.currency};
  Change change{{}, {}, none, none, none, none, none};
  if (order.swaps.empty() && order.owned.empty()) return change;
  WishTeller teller(project, order, findings);
  const tiers::OrderSwaps swaps = tiers::swaps_of(values, order);
  if (order.swaps.empty()) {
    // There is no wish to answer.
  } else if (!tier_at(project, order.tier).substitution.allowed) {
    teller.no_swaps();
  } else if (swaps.wishes.empty()) {
    teller.no_credit();
  } else {
    teller.tell_all(swaps);
  }
  if (!swaps.twice.empty()) teller.owned_twice(swaps.twice);
  change.left_out = swaps.left_out;
  change.taken = swaps.taken();
  const auto order_of = [](ItemRef item) { return std::pair(item.kind, item.index); };
  std::sort(change.left_out.begin(), change.left_out.end(),
            [&](ItemRef a, ItemRef b) { return order_of(a) < order_of(b); });
  std::stable_sort(change.taken.begin(), change.taken.end(), [&](const Swap& a, const Swap& b) {
    return order_of(a.item) < order_of(b.item);
  });
  if (change.taken.empty() && swaps.off.minor == 0) return change; // no credit is spent
  change.credit = swaps.credit.credit;
  change.worth = swaps.worth;
  change.remainder = swaps.remainder;
  change.off = swaps.off;
  change.to_pay = swaps.to_pay;
  return change;
}

namespace {

void put_into_boxes(const Project& project, Parcels& parcels) {
  const std::vector<int> firsts = shared_parcels(project);
  std::map<int, int> boxes; // by the first order
  for (std::size_t i = 0; i < parcels.parcels.size(); ++i) {
    Parcel& parcel = parcels.parcels[i];
    const auto [box, fresh] =
        boxes.try_emplace(at(firsts, parcel.order), static_cast<int>(parcels.boxes.size()));
    if (fresh) parcels.boxes.emplace_back();
    parcel.box = box->second;
    parcels.boxes.at(as_index(parcel.box)).push_back(static_cast<int>(i));
  }
}

} // namespace

Parcels parcels_of(const Project& project) {
  Parcels parcels;
  const Run& run = project.run;
  tell_set_aside(project, parcels.findings);
  if (run.orders.empty()) {
    const std::vector<int> planned = supply::planned_kits(project);
    for (std::size_t tier = 0; tier < planned.size(); ++tier)
      if (planned[tier] > 0) {
        parcels.kinds.push_back(supply::kit_kind(project, static_cast<int>(tier), planned[tier]));
        parcels.changes.emplace_back();
      }
    return parcels;
  }
  struct Kind {
    int tier = 0;
    Change change;
    int kits = 0;
    int index = 0;
  };
  std::map<std::string, Kind> kinds; // keys sort by tier, the unchanged kind first
  std::vector<std::string> keys;
  tiers::TierValues values(project);
  for (const Order& order : run.orders) {
    Change change = change_of(values, order, parcels.findings);
    std::string key = key_of(order.tier, change);
    Kind& kind = kinds[key];
    kind.tier = order.tier;
    kind.change = std::move(change);
    kind.kits = std::min(kind.kits + order.quantity, most_kits);
    keys.push_back(std::move(key));
  }
  for (auto& [key, kind] : kinds) {
    kind.index = static_cast<int>(parcels.kinds.size());
    const Tier& tier = project.tiers.at(as_index(kind.tier));
    parcels.kinds.push_back(supply::kit_kind(
        project, kind.tier, tiers::changed_includes(tier, kind.change.left_out, kind.change.taken),
        kind.kits));
    parcels.changes.push_back(kind.change);
  }
  for (std::size_t i = 0; i < run.orders.size(); ++i) {
    Parcel parcel;
    parcel.order = static_cast<int>(i);
    parcel.kind = kinds.at(keys[i]).index;
    parcel.kits = run.orders[i].quantity;
    const Tier& tier = project.tiers.at(as_index(run.orders[i].tier));
    (tier.shipping == Tier::Shipping::None ? parcels.unposted : parcels.parcels).push_back(parcel);
  }
  put_into_boxes(project, parcels);
  check_orders(project, parcels);
  return parcels;
}

} // namespace leafwright::orders
