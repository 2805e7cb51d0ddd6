#include "plan/supply/takings_mass.h"

#include <algorithm>
#include <optional>

namespace leafwright::supply {

namespace {

__extension__ using Wide = __int128;

Area area_of(const Project& project, const Taking& taking) {
  Area sum{};
  const Stock& stock = project.stocks.at(static_cast<std::size_t>(taking.item.index));
  if (!stock.sheets.empty()) sum.um2 += area(stock.sheets.front().size).um2 * taking.sheets;
  for (const StockCut& cut : taking.cuts) sum.um2 += area(cut.size).um2 * cut.count;
  return sum;
}

// Packs handed over unopened, told by what they hold.
std::int64_t pieces_of(const Taking& taking, int in_pack) {
  return taking.pieces + taking.packs * std::max(in_pack, 1);
}

class Weighing {
 public:
  Weighing(const Project& project, KitMass& result) : project_(project), result_(result) {}

  void add(const Taking& taking) {
    if (taking.item.kind == ItemKind::Pack)
      add_pack(taking);
    else if (taking.item.kind == ItemKind::Stock)
      add_paper(taking.item, area_of(project_, taking));
    else if (const std::optional<Mass> mass = mass_of_thing(taking))
      result_.known += *mass;
    else
      name_unknown(taking.item);
  }

 private:
  void name_unknown(ItemRef item) {
    if (std::find(result_.unknown.begin(), result_.unknown.end(), item) == result_.unknown.end())
      result_.unknown.push_back(item);
  }

  void add_paper(ItemRef item, Area area) {
    const Stock& stock = project_.stocks.at(static_cast<std::size_t>(item.index));
    if (stock.grammage <= Grammage{})
      name_unknown(item);
    else
      result_.known += leafwright::mass_of(area, stock.grammage);
  }

  void add_pack(const Taking& taking) {
    for (const Pack::Line& line :
         project_.packs.at(static_cast<std::size_t>(taking.item.index)).lines) {
      Taking sheets;
      sheets.item = {ItemKind::Stock, line.stock};
      sheets.sheets = line.sheets * taking.packs;
      add_paper(sheets.item, area_of(project_, sheets));
    }
  }

  static std::optional<Mass> by_number(Mass each, std::int64_t count) {
    return each > Mass{} ? std::optional(each * count) : std::nullopt;
  }
  // each x (packs + part / whole), to the nearest milligram.
  static std::optional<Mass> by_share(Mass each, std::int64_t packs, std::int64_t part,
                                      std::int64_t whole) {
    if (each <= Mass{} || (part > 0 && whole <= 0)) return std::nullopt;
    Mass mass = each * packs;
    if (part > 0) mass += {static_cast<std::int64_t>((Wide{each.mg} * part + whole / 2) / whole)};
    return mass;
  }

  std::optional<Mass> mass_of_thing(const Taking& taking) {
    const auto index = static_cast<std::size_t>(std::max(taking.item.index, 0));
    switch (taking.item.kind) {
    case ItemKind::Die: return by_number(project_.dies.at(index).sold.each, taking.pieces);
    case ItemKind::StampSet:
      return by_number(project_.stamp_sets.at(index).sold.each, taking.pieces);
    case ItemKind::Ink: return by_number(project_.inks.at(index).sold.each, taking.pieces);
    case ItemKind::Tool: return by_number(project_.tools.at(index).sold.each, taking.pieces);
    case ItemKind::Ribbon: {
      const Ribbon& ribbon = project_.ribbons.at(index);
      return by_share(ribbon.sold.each, taking.packs, taking.length.nm, ribbon.spool.nm);
    }
    case ItemKind::Embellishment: {
      const Sold& sold = project_.embellishments.at(index).sold;
      return by_number(sold.each, pieces_of(taking, sold.count));
    }
    case ItemKind::Envelope: return envelopes(project_.envelopes.at(index), taking);
    case ItemKind::Adhesive: return adhesive(project_.adhesives.at(index), taking);
    case ItemKind::Stock:
    case ItemKind::Pack:
    case ItemKind::Tutorial:
    case ItemKind::Parts: break;
    }
    return Mass{};
  }

  std::optional<Mass> envelopes(const Envelope& envelope, const Taking& taking) {
    Need need;
    need.item = taking.item;
    need.count = pieces_of(taking, envelope.sold.count);
    const KitMass mass = mass_of_needs(project_, {need});
    if (!mass.unknown.empty()) return std::nullopt;
    result_.estimated = result_.estimated || mass.estimated;
    return mass.known;
  }

  // `each` weighs one roll or bottle, or all the squares in one packet.
  static std::optional<Mass> adhesive(const Adhesive& adhesive, const Taking& taking) {
    if (adhesive.kind == Adhesive::Kind::Sheet)
      return by_share(adhesive.sold.each, taking.packs, taking.area.um2, area(adhesive.piece).um2);
    switch (adhesive.measured) {
    case Adhesive::Measured::ByMass: {
      // The bottle itself is not known.
      const Mass full = adhesive.sold.each > Mass{} ? adhesive.sold.each : adhesive.mass;
      return full * taking.packs + taking.mass;
    }
    case Adhesive::Measured::ByLength:
      return by_share(adhesive.sold.each, taking.packs, taking.length.nm, adhesive.length.nm);
    case Adhesive::Measured::ByCount:
      return by_share(adhesive.sold.each, taking.packs, taking.pieces, adhesive.per_pack);
    }
    return std::nullopt;
  }

  const Project& project_;
  KitMass& result_;
};

} // namespace

KitMass mass_of_takings(const Project& project, std::span<const Taking> takings) {
  KitMass result;
  Weighing weighing(project, result);
  for (const Taking& taking : takings) weighing.add(taking);
  return result;
}

} // namespace leafwright::supply
