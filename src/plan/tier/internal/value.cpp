#include "plan/tier/value.h"

#include "measure/index.h"
#include "model/item.h"

#include <algorithm>

namespace leafwright::tiers {

namespace {

__extension__ using Wide = __int128;

std::int64_t area_of_sheet(const Stock* stock) {
  return stock && !stock->sheets.empty() ? area(stock->sheets.front().size).um2 : 0;
}

std::int64_t stock_quantity(const Stock* stock, const supply::KitItem& taking) {
  std::int64_t sum = area_of_sheet(stock) * taking.sheets;
  for (const supply::StockCut& cut : taking.cuts) sum += area(cut.size).um2 * cut.count;
  return sum;
}

// What one roll, bottle, sheet or packet holds.
std::int64_t adhesive_content(const Adhesive& adhesive) {
  if (adhesive.kind == Adhesive::Kind::Sheet) return area(adhesive.piece).um2;
  switch (adhesive.measured) {
  case Adhesive::Measured::ByLength: return adhesive.length.nm;
  case Adhesive::Measured::ByCount: return std::max(adhesive.per_pack, 1);
  case Adhesive::Measured::ByMass: return adhesive.mass.mg;
  }
  return 0;
}

std::int64_t adhesive_quantity(const Adhesive& adhesive, const supply::KitItem& taking) {
  const std::int64_t whole = taking.packs * adhesive_content(adhesive);
  if (adhesive.kind == Adhesive::Kind::Sheet) return whole + taking.area.um2;
  switch (adhesive.measured) {
  case Adhesive::Measured::ByLength: return whole + taking.length.nm;
  case Adhesive::Measured::ByCount: return whole + taking.pieces;
  case Adhesive::Measured::ByMass: return whole + taking.mass.mg;
  }
  return whole;
}

std::optional<ShopPrice> priced(const Sold& sold, std::int64_t each) {
  if (!sold.price || each <= 0) return std::nullopt;
  return ShopPrice{*sold.price, each * std::max(sold.count, 1)};
}

std::int64_t area_of_pack(const Project& project, const Pack& pack) {
  std::int64_t sum = 0;
  for (const Pack::Line& line : pack.lines)
    sum += area_of_sheet(find_at(project.stocks, line.stock)) * line.sheets;
  return sum;
}

std::optional<ShopPrice> stock_price(const Project& project, int index) {
  const Stock* stock = find_at(project.stocks, index);
  if (!stock || stock->sheets.empty()) return std::nullopt;
  if (auto own = priced(stock->sheets.front().sold, area_of_sheet(stock))) return own;
  for (const Pack& pack : project.packs) {
    const bool holds = std::any_of(pack.lines.begin(), pack.lines.end(),
                                   [&](const Pack::Line& line) { return line.stock == index; });
    const std::int64_t all = area_of_pack(project, pack);
    if (holds && pack.price && all > 0) return ShopPrice{*pack.price, all};
  }
  return std::nullopt;
}

class Valuing {
 public:
  Valuing(const Project& project, const Tier& tier) : project_(project) {
    result_.total = {0, project.currency};
    result_.gifts = result_.total;
    // A buyer who had to cut the parts would need whole sheets.
    Tier uncut = tier;
    uncut.parts_cut = false;
    const supply::KitContents kit_items = supply::kit_contents_of(project, uncut);
    for (std::size_t i = 0; i < tier.includes.size(); ++i)
      add(tier.includes[i], static_cast<int>(i), kit_items.kit_items);
  }
  TierValue take() { return std::move(result_); }

 private:
  void add(const Inclusion& inclusion, int index, const std::vector<supply::KitItem>& kit_items) {
    TierValue::Line line{{0, project_.currency}, true, inclusion.gift};
    if (inclusion.value)
      line.value = *inclusion.value;
    else if (inclusion.item.kind == ItemKind::Tutorial)
      add_tutorial(line, inclusion.item);
    else
      for (const supply::KitItem& taking : kit_items)
        if (taking.inclusion == index) add_taking(line, taking);
    result_.total = result_.total + line.value;
    if (line.gift) result_.gifts = result_.gifts + line.value;
    result_.lines.push_back(line);
  }

  void add_tutorial(TierValue::Line& line, ItemRef item) {
    if (const std::optional<Money> value = tutorial_value(project_))
      line.value = *value;
    else
      miss(line, item);
  }

  void add_taking(TierValue::Line& line, const supply::KitItem& taking) {
    const std::int64_t quantity = quantity_of(project_, taking);
    if (quantity == 0) return;
    if (const std::optional<ShopPrice> pack = shop_price(project_, taking.item))
      line.value = line.value + part_price(*pack, quantity);
    else
      miss(line, taking.item);
  }

  void miss(TierValue::Line& line, ItemRef item) {
    line.known = false;
    auto& all = result_.unpriced;
    if (std::find(all.begin(), all.end(), item) == all.end()) all.push_back(item);
  }

  const Project& project_;
  TierValue result_;
};

} // namespace

std::int64_t quantity_of(const Project& project, const supply::KitItem& taking) {
  switch (kind_row(taking.item.kind).counted) {
  case KindRow::Counted::Sheets:
    return stock_quantity(find_at(project.stocks, taking.item.index), taking);
  case KindRow::Counted::Packs: return taking.packs;
  case KindRow::Counted::Length: {
    const Ribbon* ribbon = find_at(project.ribbons, taking.item.index);
    return taking.length.nm + (ribbon ? ribbon->spool.nm * taking.packs : 0);
  }
  case KindRow::Counted::Pieces: {
    const Sold* sold = sold_of(project, taking.item);
    return taking.pieces + taking.packs * (sold ? std::max(sold->count, 1) : 1);
  }
  case KindRow::Counted::Adhesive: {
    const Adhesive* adhesive = find_at(project.adhesives, taking.item.index);
    return adhesive ? adhesive_quantity(*adhesive, taking) : 0;
  }
  case KindRow::Counted::Things: return taking.pieces + taking.packs;
  case KindRow::Counted::Nothing: break;
  }
  return 0;
}

std::optional<ShopPrice> shop_price(const Project& project, ItemRef item) {
  const Sold* sold = sold_of(project, item);
  switch (kind_row(item.kind).counted) {
  case KindRow::Counted::Sheets: return stock_price(project, item.index);
  case KindRow::Counted::Packs: {
    const Pack* pack = find_at(project.packs, item.index);
    return pack && pack->price ? std::optional(ShopPrice{*pack->price, 1}) : std::nullopt;
  }
  case KindRow::Counted::Length:
    return sold ? priced(*sold, at(project.ribbons, item.index).spool.nm) : std::nullopt;
  case KindRow::Counted::Adhesive:
    return sold ? priced(*sold, adhesive_content(at(project.adhesives, item.index))) : std::nullopt;
  case KindRow::Counted::Pieces:
  case KindRow::Counted::Things: return sold ? priced(*sold, 1) : std::nullopt;
  case KindRow::Counted::Nothing: break;
  }
  return std::nullopt;
}

Money part_price(const ShopPrice& pack, std::int64_t quantity) {
  Money part{0, pack.price.currency};
  if (quantity <= 0 || pack.quantity <= 0) return part;
  const Wide twice = Wide{2} * pack.price.minor * quantity + pack.quantity;
  part.minor = static_cast<std::int64_t>(twice / (Wide{2} * pack.quantity));
  return part;
}

Money packs_price(const ShopPrice& pack, std::int64_t quantity) {
  if (quantity <= 0 || pack.quantity <= 0) return {0, pack.price.currency};
  return pack.price * ((quantity - 1) / pack.quantity + 1);
}

std::optional<Money> tutorial_value(const Project& project) {
  std::optional<Money> least;
  for (const Tier& tier : project.tiers) {
    const bool only =
        !tier.includes.empty() &&
        std::all_of(tier.includes.begin(), tier.includes.end(),
                    [](const Inclusion& one) { return one.item.kind == ItemKind::Tutorial; });
    if (!only || !tier.price || tier.audience != Tier::Audience::Anyone) continue;
    if (!least || tier.price->minor < least->minor) least = tier.price;
  }
  return least;
}

TierValue value_of(const Project& project, const Tier& tier) {
  return Valuing(project, tier).take();
}

TierValue value_of(const Project& project, int tier) {
  const Tier* found = find_at(project.tiers, tier);
  return found ? value_of(project, *found) : TierValue{};
}

const TierValue& TierValues::of(int tier) {
  std::optional<TierValue>& known = known_.at(as_index(tier));
  if (!known) known = value_of(project_, tier);
  return *known;
}

std::optional<Money> value_of(const Project& project, ItemRef item, const Amount& amount) {
  Tier alone;
  Inclusion inclusion;
  inclusion.item = item;
  inclusion.amount = amount;
  alone.includes.push_back(std::move(inclusion));
  const TierValue value = value_of(project, alone);
  return value.unpriced.empty() ? std::optional(value.total) : std::nullopt;
}

} // namespace leafwright::tiers
