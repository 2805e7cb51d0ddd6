#include "plan/supply/kits.h"

#include "measure/index.h"
#include "model/item.h"
#include "plan/supply/needs.h"

#include <algorithm>
#include <optional>
#include <set>
#include <tuple>
#include <utility>

namespace leafwright::supply {

KitKind kit_kind(const Project& project, int tier, std::vector<Inclusion> includes, int kits) {
  KitKind kind;
  kind.tier = tier;
  kind.kits = kits;
  Tier made = project.tiers.at(as_index(tier));
  made.includes = includes;
  kind.includes = std::move(includes);
  kind.kit_items = kit_contents_of(project, made);
  return kind;
}

KitKind kit_kind(const Project& project, int tier, int kits) {
  return kit_kind(project, tier, project.tiers.at(as_index(tier)).includes, kits);
}

namespace {

// Packs of `per_pack` pieces that weigh `each`.
Mass of_packs(const Sold& sold, std::int64_t packs) {
  return sold.each * (packs * std::max(sold.count, 1));
}

class ContentsScales {
 public:
  explicit ContentsScales(const Project& project) : project_(project) {}

  void add(const KitItem& taking) {
    const Sold* sold = sold_of(project_, taking.item);
    switch (kind_row(taking.item.kind).counted) {
    case KindRow::Counted::Sheets: paper(taking); return;
    case KindRow::Counted::Packs: pack(taking); return;
    case KindRow::Counted::Things: whole(taking, *sold); return;
    case KindRow::Counted::Pieces:
      if (taking.item.kind == ItemKind::Envelope) {
        KitItem all = taking; // envelopes weigh by their paper, in a pack or out of it
        all.pieces += taking.packs * std::max(sold->count, 1);
        used(all);
        return;
      }
      [[fallthrough]];
    case KindRow::Counted::Length:
      unopened(taking, *sold);
      used(taking);
      return;
    case KindRow::Counted::Adhesive: {
      const Adhesive& adhesive = at(project_.adhesives, taking.item.index);
      if (adhesive.measured == Adhesive::Measured::ByMass && adhesive.sold.each <= Mass{} &&
          taking.packs > 0)
        result_.known += adhesive.mass * taking.packs; // the glue without its bottle
      else
        unopened(taking, adhesive.sold);
      used(taking);
      return;
    }
    case KindRow::Counted::Nothing: return;
    }
  }

  KitMass take() { return std::move(result_); }

 private:
  void unknown(ItemRef item) {
    if (std::find(result_.unknown.begin(), result_.unknown.end(), item) == result_.unknown.end())
      result_.unknown.push_back(item);
  }

  void paper(const KitItem& taking) {
    const Stock& stock = at(project_.stocks, taking.item.index);
    if (stock.grammage <= Grammage{}) {
      unknown(taking.item);
      return;
    }
    for (const StockCut& cut : taking.cuts)
      result_.known += mass_of(area(cut.size), stock.grammage) * cut.count;
    if (!stock.sheets.empty())
      result_.known += mass_of(area(stock.sheets.front().size), stock.grammage) * taking.sheets;
  }

  void pack(const KitItem& taking) {
    for (const Pack::Line& line : at(project_.packs, taking.item.index).lines) {
      KitItem sheets;
      sheets.item = {ItemKind::Stock, line.stock};
      sheets.sheets = taking.packs * line.sheets;
      paper(sheets);
    }
  }

  void whole(const KitItem& taking, const Sold& sold) {
    if (sold.each <= Mass{})
      unknown(taking.item);
    else
      result_.known += sold.each * taking.pieces;
  }

  void unopened(const KitItem& taking, const Sold& sold) {
    if (taking.packs <= 0) return;
    if (sold.each <= Mass{})
      unknown(taking.item);
    else
      result_.known += of_packs(sold, taking.packs);
  }

  // What is counted out or measured off weighs as it does on a card.
  void used(const KitItem& taking) {
    if (taking.pieces <= 0 && taking.length <= Length{} && taking.mass <= Mass{} &&
        taking.area.um2 <= 0)
      return;
    Need need;
    need.item = taking.item;
    need.count = taking.pieces;
    need.length = taking.length;
    need.mass = taking.mass;
    need.area = taking.area;
    const KitMass part = mass_of_needs(project_, {need});
    result_.known += part.known;
    result_.estimated = result_.estimated || part.estimated;
    for (const ItemRef item : part.unknown) unknown(item);
  }

  const Project& project_;
  KitMass result_;
};

} // namespace

std::int64_t lettered_envelopes(const KitContents& kit_items) {
  // A piece is known by its line of the cut list, a share of a sheet by its size.
  using Part = std::tuple<int, int, std::int64_t, std::int64_t, bool>;
  std::set<Part> parts;
  for (const KitItem& taking : kit_items.kit_items)
    for (const StockCut& cut : taking.cuts)
      parts.insert(cut.line >= 0 ? Part{cut.line, 0, 0, 0, taking.gift}
                                 : Part{-1, taking.item.index, cut.size.width.nm,
                                        cut.size.height.nm, taking.gift});
  return static_cast<std::int64_t>(parts.size());
}

KitMass mass_of_contents(const Project& project, const KitContents& kit_items) {
  ContentsScales scales(project);
  for (const KitItem& taking : kit_items.kit_items) scales.add(taking);
  KitMass mass = scales.take();
  const std::int64_t envelopes = lettered_envelopes(kit_items);
  mass.known += project.run.lettered_envelope * envelopes;
  mass.envelopes_unknown = envelopes > 0 && project.run.lettered_envelope <= Mass{};
  return mass;
}

namespace {

__extension__ using Wide = __int128;

// whole x part / of, to the nearest milligram.
Mass share(Mass whole, std::int64_t part, std::int64_t of) {
  const Wide product = static_cast<Wide>(whole.mg) * part;
  return {static_cast<std::int64_t>((product + of / 2) / of)};
}

// An envelope is folded from about two and a half times its own area: both sides, the flap and the
// seams (common practice; measured patterns lie between 2.3 and 2.6).
Mass envelope_mass(const Envelope& envelope) {
  return mass_of({area(envelope.size).um2 / 2 * 5}, envelope.grammage);
}

class Scales {
 public:
  Scales(const Project& project, KitMass& result) : project_(project), result_(result) {}

  void add(const Need& need) {
    const std::optional<Mass> mass = mass_of_need(need);
    if (mass)
      result_.known += *mass;
    else
      result_.unknown.push_back(need.item);
  }

 private:
  static std::optional<Mass> by_number(Mass each, std::int64_t count) {
    return each > Mass{} ? std::optional(each * count) : std::nullopt;
  }

  std::optional<Mass> mass_of_need(const Need& need) {
    const auto index = as_index(need.item.index);
    switch (need.item.kind) {
    case ItemKind::Stock: {
      const Stock& stock = project_.stocks.at(index);
      if (stock.grammage <= Grammage{}) return std::nullopt;
      return leafwright::mass_of(need.area, stock.grammage);
    }
    case ItemKind::Ribbon: {
      const Ribbon& ribbon = project_.ribbons.at(index);
      if (ribbon.sold.each <= Mass{} || ribbon.spool <= Length{}) return std::nullopt;
      return share(ribbon.sold.each, need.length.nm, ribbon.spool.nm);
    }
    case ItemKind::Embellishment:
      return by_number(project_.embellishments.at(index).sold.each, need.count);
    case ItemKind::Adhesive: return adhesive_mass(project_.adhesives.at(index), need);
    case ItemKind::Envelope: {
      const Envelope& envelope = project_.envelopes.at(index);
      if (envelope.sold.each > Mass{}) return envelope.sold.each * need.count;
      if (envelope.grammage <= Grammage{}) return std::nullopt;
      result_.estimated = true;
      return envelope_mass(envelope) * need.count;
    }
    default: return Mass{};
    }
  }

  // `each` weighs one thing as it is sold: a roll, or all the squares on one sheet.
  static std::optional<Mass> adhesive_mass(const Adhesive& adhesive, const Need& need) {
    if (adhesive.measured == Adhesive::Measured::ByMass) return need.mass;
    if (adhesive.sold.each <= Mass{}) return std::nullopt;
    if (adhesive.measured == Adhesive::Measured::ByLength && adhesive.length > Length{})
      return share(adhesive.sold.each, need.length.nm, adhesive.length.nm);
    if (adhesive.measured == Adhesive::Measured::ByCount) {
      const std::int64_t in_one =
          std::max<std::int64_t>(1, adhesive.per_pack / std::max(1, adhesive.sold.count));
      return share(adhesive.sold.each, need.count, in_one);
    }
    return std::nullopt;
  }

  const Project& project_;
  KitMass& result_;
};

} // namespace

KitMass mass_of_needs(const Project& project, const Needs& needs) {
  KitMass result;
  Scales scales(project, result);
  for (const Need& need : needs)
    if (need.consumed) scales.add(need);
  return result;
}

} // namespace leafwright::supply
