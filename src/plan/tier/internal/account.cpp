#include "plan/tier/account.h"

#include "measure/index.h"
#include "plan/tier/substitution.h"
#include "plan/tier/value.h"

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <map>
#include <tuple>

namespace leafwright::tiers {

namespace {

void add(TierAccount& to, const TierAccount& more) {
  to.orders += more.orders;
  to.kits += more.kits;
  to.price = to.price + more.price;
  to.charged = to.charged + more.charged;
  to.goods = to.goods + more.goods;
  to.fees = to.fees + more.fees;
  to.postage = to.postage + more.postage;
  to.packing = to.packing + more.packing;
  to.margin = to.margin + more.margin;
}

TierAccount empty_account(const Project& project, int tier) {
  const Money none{0, project.currency};
  return {tier, 0, 0, none, none, none, none, none, none, none};
}

// How much of a purchase one kit uses: by the stock it is, or the stocks in its pack.
std::int64_t use_of(const Project& project, const supply::Purchase& purchase,
                    const supply::KitKind& kind) {
  std::int64_t use = 0;
  for (const supply::KitItem& taking : kind.kit_items.kit_items) {
    if (purchase.item.kind != ItemKind::Pack) {
      if (taking.item == purchase.item) use += quantity_of(project, taking);
      continue;
    }
    const Pack& pack = project.packs.at(as_index(purchase.item.index));
    for (const Pack::Line& line : pack.lines) {
      supply::KitItem sheets = taking;
      if (taking.item == purchase.item) { // given unopened
        sheets = {};
        sheets.item = {ItemKind::Stock, line.stock};
        sheets.sheets = line.sheets * taking.packs;
      } else if (taking.item != ItemRef{ItemKind::Stock, line.stock}) {
        continue;
      }
      use += quantity_of(project, sheets);
    }
  }
  return use;
}

// Each purchase on the tiers, by what their kits use of it.
std::vector<Money> goods_by_tier(const Project& project, std::span<const supply::KitKind> kinds,
                                 const supply::Buying& buying) {
  std::vector<Money> goods(project.tiers.size(), Money{0, project.currency});
  for (const supply::Purchase& purchase : buying.purchases) {
    std::vector<std::int64_t> weights(project.tiers.size(), 0);
    for (const supply::KitKind& kind : kinds)
      if (kind.kits > 0)
        weights.at(as_index(kind.tier)) += use_of(project, purchase, kind) * kind.kits;
    const std::vector<Money> parts = share_out(purchase.cost, weights);
    for (std::size_t i = 0; i < goods.size(); ++i) goods[i] = goods[i] + parts[i];
  }
  return goods;
}

// Whether the list names a rest of that length.
bool worth_keeping(const supply::BuyingLine& line, Length rest) {
  return std::any_of(line.lengths_left.begin(), line.lengths_left.end(),
                     [&](const supply::RibbonCut& kept) { return kept.length == rest; });
}

Length length_in_hand(const Project& project, ItemRef item) {
  Length length{};
  for (const StockInHand& hand : project.run.in_hand)
    if (hand.item == item) length += hand.length * std::max(hand.count, 1);
  return length;
}

// What is left of a line that was bought, in the measure of shop_price(). Rests of what was in hand
// before the run cost nothing.
std::int64_t left_of(const Project& project, const supply::BuyingLine& line, const ShopPrice& price,
                     std::int64_t units_in_pack) {
  const std::int64_t each = price.quantity / std::max<std::int64_t>(units_in_pack, 1);
  const std::int64_t bought = line.bought * each;
  std::int64_t left = std::min(line.left, line.bought) * each;
  if (line.spools)
    for (const spool::Reel& reel : line.spools->reels)
      if (reel.rest < 0 && worth_keeping(line, reel.left)) left += reel.left.nm * reel.times;
  const bool roll = line.item.kind == ItemKind::Adhesive &&
                    line.unit == supply::BuyingLine::CountedIn::Rolls && line.needed > 0;
  if (roll) {
    const Adhesive& adhesive = project.adhesives.at(as_index(line.item.index));
    std::int64_t used = line.length.nm;
    if (adhesive.kind == Adhesive::Kind::Sheet)
      used = line.area.um2;
    else if (adhesive.measured == Adhesive::Measured::ByMass)
      used = line.mass.mg;
    else
      used -= length_in_hand(project, line.item).nm;
    // Rolls given whole are not rests.
    if (used > 0) left += std::max<std::int64_t>(0, (used + each - 1) / each * each - used);
  }
  return std::min(left, bought);
}

Money stranded_of(const Project& project, const supply::Buying& buying) {
  Money stranded{0, project.currency};
  for (const supply::BuyingLine& line : buying.lines) {
    if (line.bought <= 0) continue;
    const std::optional<ShopPrice> price = shop_price(project, line.item);
    if (!price) continue;
    std::int64_t units = price->quantity;
    if (line.unit == supply::BuyingLine::CountedIn::Sheets) {
      const Stock& stock = project.stocks.at(as_index(line.item.index));
      units = price->quantity / std::max<std::int64_t>(area(stock.sheets.front().size).um2, 1);
    } else if (line.item.kind == ItemKind::Ribbon) {
      units = project.ribbons.at(as_index(line.item.index)).sold.count;
    } else if (line.unit == supply::BuyingLine::CountedIn::Rolls) {
      units = project.adhesives.at(as_index(line.item.index)).sold.count;
    }
    stranded = stranded + part_price(*price, left_of(project, line, *price, units));
  }
  return stranded;
}

} // namespace

Account account_of(const Project& project, std::span<const Sale> sales,
                   std::span<const supply::KitKind> kinds, const supply::Buying& buying) {
  const Money none{0, project.currency};
  Account account;
  account.all = empty_account(project, -1);
  account.outlays = account.open = none;
  std::vector<TierAccount> by_tier;
  for (std::size_t i = 0; i < project.tiers.size(); ++i)
    by_tier.push_back(empty_account(project, static_cast<int>(i)));
  for (const Sale& sale : sales) {
    TierAccount& one = by_tier.at(as_index(sale.tier));
    const OrderTerms terms = terms_of(project, sale);
    one.orders += sale.orders;
    one.kits += sale.orders * sale.kits;
    one.price = one.price + terms.price * sale.orders;
    one.charged = one.charged + terms.charged * sale.orders;
    one.fees = one.fees + terms.fees * sale.orders;
    one.postage = one.postage + terms.postage * sale.orders;
    one.packing = one.packing + terms.packing * sale.orders;
    account.postage_known = account.postage_known && terms.postage_known;
    if (!sale.open) continue;
    account.orders_open += sale.orders;
    account.open = account.open + (terms.price + terms.charged) * sale.orders;
  }
  const std::vector<Money> goods = goods_by_tier(project, kinds, buying);
  for (std::size_t i = 0; i < by_tier.size(); ++i) {
    TierAccount& one = by_tier[i];
    one.goods = goods[i];
    one.margin = one.price + one.charged - one.goods - one.fees - one.postage - one.packing;
    if (one.kits == 0 && one.goods.minor == 0) continue;
    if (one.kits > 0 && !project.tiers[i].price)
      account.tiers_unpriced.push_back(static_cast<int>(i));
    add(account.all, one);
    account.tiers.push_back(one);
  }
  for (const Selling::Outlay& outlay : project.selling.outlays)
    account.outlays = account.outlays + outlay.cost;
  account.result = account.all.margin - account.outlays;
  account.stranded = stranded_of(project, buying);
  account.unpriced = buying.unpriced;
  return account;
}

namespace {

struct Side {
  const Tier& tier;
  const TierValue& value;
  supply::KitContents kit_items;

  Side(TierValues& values, int index)
      : tier(tier_at(values.project(), index)), value(values.of(index)),
        kit_items(supply::kit_contents_of(values.project(), tier)) {}

  // The first inclusion of the item.
  const Inclusion* find(ItemRef item) const {
    const auto found = std::find_if(tier.includes.begin(), tier.includes.end(),
                                    [&](const Inclusion& one) { return one.item == item; });
    return found == tier.includes.end() ? nullptr : &*found;
  }
  std::int64_t quantity(const Project& project, ItemRef item) const {
    std::int64_t sum = 0;
    for (const supply::KitItem& taking : kit_items.kit_items) {
      const auto& of = tier.includes.at(as_index(taking.inclusion));
      if (of.item == item) sum += quantity_of(project, taking);
    }
    return sum;
  }
  std::optional<Money> worth(ItemRef item) const {
    std::optional<Money> sum;
    for (std::size_t i = 0; i < tier.includes.size(); ++i) {
      if (tier.includes[i].item != item) continue;
      if (!value.lines.at(i).known) return std::nullopt;
      sum = sum ? *sum + value.lines[i].value : value.lines[i].value;
    }
    return sum;
  }
};

bool same_requirement(const Requirement& a, const Requirement& b) { return a.any_of == b.any_of; }

std::vector<const Requirement*> only_in(const Tier& one, const Tier& other) {
  std::vector<const Requirement*> found;
  for (const Requirement& wanted : one.requires_owned)
    if (std::none_of(other.requires_owned.begin(), other.requires_owned.end(),
                     [&](const Requirement& also) { return same_requirement(wanted, also); }))
      found.push_back(&wanted);
  return found;
}

} // namespace

TierDifference difference_of(TierValues& values, int from, int to) {
  const Project& project = values.project();
  const Side less(values, from), more(values, to);
  TierDifference found;
  found.from = from;
  found.to = to;
  found.value = {0, project.currency};
  if (less.tier.price && more.tier.price) found.price = *more.tier.price - *less.tier.price;

  std::vector<ItemRef> items;
  const auto note = [&](const Tier& tier) {
    for (const Inclusion& one : tier.includes)
      if (std::find(items.begin(), items.end(), one.item) == items.end()) items.push_back(one.item);
  };
  note(more.tier);
  note(less.tier);
  for (const ItemRef item : items) {
    Difference line;
    line.item = item;
    line.from = less.find(item);
    line.to = more.find(item);
    const std::optional<Money> before = less.worth(item), after = more.worth(item);
    if (!line.from) {
      line.value = after;
    } else if (!line.to) {
      line.kind = Difference::Kind::Missing;
      if (before) line.value = Money{-before->minor, project.currency};
    } else {
      const bool other_way =
          item.kind == ItemKind::Parts && less.tier.parts_cut != more.tier.parts_cut;
      const std::int64_t a = less.quantity(project, item), b = more.quantity(project, item);
      if (a == b && !other_way) continue;
      line.kind = other_way ? Difference::Kind::Otherwise
                  : b > a   ? Difference::Kind::More
                            : Difference::Kind::Less;
      if (before && after) line.value = *after - *before;
    }
    if (line.value) found.value = found.value + *line.value;
    found.lines.push_back(line);
  }
  std::stable_sort(found.lines.begin(), found.lines.end(),
                   [](const Difference& a, const Difference& b) { return a.kind < b.kind; });
  found.freed = only_in(less.tier, more.tier);
  found.asked = only_in(more.tier, less.tier);
  return found;
}

std::vector<TierDifference> ladder_of(TierValues& values) {
  const Project& project = values.project();
  std::vector<int> open;
  for (std::size_t i = 0; i < project.tiers.size(); ++i)
    if (project.tiers[i].audience == Tier::Audience::Anyone && project.tiers[i].price)
      open.push_back(static_cast<int>(i));
  std::stable_sort(open.begin(), open.end(), [&](int a, int b) {
    return project.tiers[as_index(a)].price->minor < project.tiers[as_index(b)].price->minor;
  });
  std::vector<TierDifference> ladder;
  for (std::size_t i = 1; i < open.size(); ++i)
    ladder.push_back(difference_of(values, open[i - 1], open[i]));
  return ladder;
}

} // namespace leafwright::tiers
