#include "plan/orders/parcels.h"

#include "plan/supply/buying.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>
#include <tuple>
#include <utility>

namespace leafwright::orders {

namespace {

constexpr int most_kits = 100'000'000; // of one kind: what a hostile list may add up to

const Sold* sold_of(const Project& project, ItemRef item) {
  const auto of = [&](const auto& list) -> const Sold* {
    return item.index >= 0 && static_cast<std::size_t>(item.index) < list.size()
               ? &list[static_cast<std::size_t>(item.index)].sold
               : nullptr;
  };
  switch (item.kind) {
  case ItemKind::Die: return of(project.dies);
  case ItemKind::StampSet: return of(project.stamp_sets);
  case ItemKind::Ink: return of(project.inks);
  case ItemKind::Ribbon: return of(project.ribbons);
  case ItemKind::Embellishment: return of(project.embellishments);
  case ItemKind::Adhesive: return of(project.adhesives);
  case ItemKind::Tool: return of(project.tools);
  case ItemKind::Envelope: return of(project.envelopes);
  case ItemKind::Stock: {
    const Stock& stock = project.stocks.at(static_cast<std::size_t>(item.index));
    return stock.sheets.empty() ? nullptr : &stock.sheets.front().sold;
  }
  case ItemKind::Pack:
  case ItemKind::Tutorial:
  case ItemKind::Parts: break;
  }
  return nullptr;
}

std::optional<Money> price_of(const Project& project, ItemRef item) {
  if (item.kind == ItemKind::Pack)
    return project.packs.at(static_cast<std::size_t>(item.index)).price;
  const Sold* sold = sold_of(project, item);
  return sold ? sold->price : std::nullopt;
}

// Whether owning the item gives credit: the tier holds it for its price and the rule takes it.
bool gives_credit(const Project& project, const Tier& tier, ItemRef item) {
  const bool held = std::any_of(tier.includes.begin(), tier.includes.end(),
                                [&](const auto& one) { return one.item == item && !one.gift; });
  if (!held) return false;
  if (!tier.substitution.items_over) return true;
  const std::optional<Money> price = price_of(project, item);
  return price && price->minor > tier.substitution.items_over->minor;
}

Finding warning(std::string code, const Order& order, std::string found, std::string expected,
                std::string mend) {
  return {Severity::Warning,   std::move(code), order.place, std::move(found),
          std::move(expected), std::move(mend), {}};
}

std::vector<Inclusion> changed_includes(const Tier& tier, const Change& change) {
  std::vector<Inclusion> includes;
  for (const Inclusion& one : tier.includes) {
    const bool out = !one.gift && std::find(change.left_out.begin(), change.left_out.end(),
                                            one.item) != change.left_out.end();
    if (!out) includes.push_back(one);
  }
  for (const Swap& swap : change.taken) {
    Inclusion one;
    one.item = swap.item;
    one.amount = swap.amount;
    one.place = tier.place;
    includes.push_back(std::move(one));
  }
  return includes;
}

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

// Amounts from the tier's own list; what is not on it is told, and packed as it was asked for.
std::vector<Swap> settled_swaps(const Order& order, const Tier& tier, const Project& project,
                                Findings& findings) {
  std::vector<Swap> swaps = order.swaps;
  const std::vector<SwapChoice>& choices = tier.substitution.choices;
  for (Swap& swap : swaps) {
    const auto choice = std::find_if(choices.begin(), choices.end(),
                                     [&](const SwapChoice& one) { return one.item == swap.item; });
    if (choice != choices.end()) {
      if (!swap.amount_said) swap.amount = choice->amount;
    } else if (!choices.empty()) {
      findings.push_back(warning("order-off-list", order,
                                 fmt::format("{} takes {}, which {} does not offer for a swap",
                                             order.name, item_name(project, swap.item), tier.name),
                                 "something on the tier's list",
                                 "it is packed; write to the buyer if it is too dear"));
    }
  }
  return swaps;
}

} // namespace

std::int64_t Parcels::kits() const {
  std::int64_t all = 0;
  for (const Parcel& parcel : parcels) all += parcel.kits;
  return all;
}

Change change_of(const Project& project, const Order& order, Findings& findings) {
  Change change;
  if (order.swaps.empty()) return change;
  const Tier& tier = project.tiers.at(static_cast<std::size_t>(order.tier));
  const SubstitutionRule& rule = tier.substitution;
  if (!rule.allowed) {
    findings.push_back(warning(
        "order-no-swaps", order, fmt::format("{} asks for a swap in {}", order.name, tier.name),
        "a tier with a <swap> rule", "the kit is packed as the tier says; write to the buyer"));
    return change;
  }
  for (const ItemRef item : order.owned)
    if (gives_credit(project, tier, item) &&
        std::find(change.left_out.begin(), change.left_out.end(), item) == change.left_out.end())
      change.left_out.push_back(item);
  if (change.left_out.empty()) {
    findings.push_back(
        warning("order-no-credit", order,
                fmt::format("{} asks for a swap, but owns nothing that {} gives credit for",
                            order.name, tier.name),
                "an owned thing that the tier holds",
                "the kit is packed as the tier says; write to the buyer"));
    return {};
  }
  const auto most = static_cast<std::size_t>(std::max(rule.most_swaps, 0));
  if (most > 0 && change.left_out.size() > most) {
    findings.push_back(warning(
        "order-many-swaps", order,
        fmt::format("{} owns {} things of {}", order.name, change.left_out.size(), tier.name),
        fmt::format("at most {} are changed for others", most),
        fmt::format("only {} is left out of the kit", item_name(project, change.left_out[0]))));
    if (most == 1)
      change.left_out.resize(1);
    else
      change.left_out.resize(most);
  }
  change.taken = settled_swaps(order, tier, project, findings);
  const auto order_of = [](ItemRef item) { return std::pair(item.kind, item.index); };
  std::sort(change.left_out.begin(), change.left_out.end(),
            [&](ItemRef a, ItemRef b) { return order_of(a) < order_of(b); });
  std::stable_sort(change.taken.begin(), change.taken.end(), [&](const Swap& a, const Swap& b) {
    return order_of(a.item) < order_of(b.item);
  });
  return change;
}

Parcels parcels_of(const Project& project) {
  Parcels parcels;
  const Run& run = project.run;
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
  for (const Order& order : run.orders) {
    Change change = change_of(project, order, parcels.findings);
    std::string key = key_of(order.tier, change);
    Kind& kind = kinds[key];
    kind.tier = order.tier;
    kind.change = std::move(change);
    kind.kits = std::min(kind.kits + order.quantity, most_kits);
    keys.push_back(std::move(key));
  }
  for (auto& [key, kind] : kinds) {
    kind.index = static_cast<int>(parcels.kinds.size());
    const Tier& tier = project.tiers.at(static_cast<std::size_t>(kind.tier));
    parcels.kinds.push_back(
        supply::kit_kind(project, kind.tier, changed_includes(tier, kind.change), kind.kits));
    parcels.changes.push_back(kind.change);
  }
  for (std::size_t i = 0; i < run.orders.size(); ++i) {
    Parcel parcel;
    parcel.order = static_cast<int>(i);
    parcel.kind = kinds.at(keys[i]).index;
    parcel.kits = run.orders[i].quantity;
    const Tier& tier = project.tiers.at(static_cast<std::size_t>(run.orders[i].tier));
    (tier.shipping == Tier::Shipping::None ? parcels.unposted : parcels.parcels).push_back(parcel);
  }
  check_orders(project, parcels);
  return parcels;
}

} // namespace leafwright::orders
