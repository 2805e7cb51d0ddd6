#include "measure/index.h"
#include "plan/supply/needs.h"

#include <algorithm>
#include <optional>

namespace leafwright::supply {

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
