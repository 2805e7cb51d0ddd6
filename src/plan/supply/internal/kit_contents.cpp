#include "plan/supply/kits.h"

#include "measure/index.h"
#include "model/item.h"
#include "plan/supply/needs.h"
#include "plan/supply/sheets.h"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>
#include <optional>
#include <string_view>
#include <utility>

namespace leafwright::supply {

namespace {

Size first_sheet(const Stock& stock) {
  return stock.sheets.empty() ? Size{} : stock.sheets.front().size;
}

// What one kit takes of a few cards, with the project cut down to them.
Project only(const Project& project, const std::vector<int>& cards) {
  Project part;
  part.printing = project.printing;
  part.stocks = project.stocks;
  for (Stock& stock : part.stocks)
    if (stock.sheets.size() > 1) stock.sheets.resize(1);
  part.dies = project.dies;
  part.stamp_sets = project.stamp_sets;
  part.inks = project.inks;
  part.ribbons = project.ribbons;
  part.embellishments = project.embellishments;
  part.adhesives = project.adhesives;
  part.tools = project.tools;
  part.envelopes = project.envelopes;
  part.run.of_each = project.run.of_each;
  for (std::size_t c = 0; c < project.cards.size(); ++c)
    if (cards.empty() || std::find(cards.begin(), cards.end(), static_cast<int>(c)) != cards.end())
      part.cards.push_back(project.cards[c]);
  return part;
}

class KitContentsBuilder {
 public:
  KitContentsBuilder(const Project& project, const Tier& tier) : project_(project), tier_(tier) {}

  KitContents all() {
    for (std::size_t i = 0; i < tier_.includes.size(); ++i) {
      inclusion_ = static_cast<int>(i);
      take(tier_.includes[i]);
    }
    return std::move(result_);
  }

 private:
  void take(const Inclusion& inclusion) {
    const Amount& amount = inclusion.amount;
    switch (kind_row(inclusion.item.kind).counted) {
    case KindRow::Counted::Nothing:
      if (inclusion.item.kind != ItemKind::Parts) return;
      for (std::size_t s = 0; s < project_.stocks.size(); ++s)
        parts(inclusion, static_cast<int>(s));
      return;
    case KindRow::Counted::Sheets: stock(inclusion); return;
    case KindRow::Counted::Packs: pack(inclusion); return;
    case KindRow::Counted::Length: ribbon(inclusion); return;
    case KindRow::Counted::Pieces: counted(inclusion); return;
    case KindRow::Counted::Adhesive: adhesive(inclusion); return;
    case KindRow::Counted::Things: start(inclusion).pieces = std::max(amount.count, 1); return;
    }
  }

  KitItem& start(const Inclusion& inclusion) { return start(inclusion, inclusion.item); }
  KitItem& start(const Inclusion& inclusion, ItemRef item) {
    KitItem taking;
    taking.item = item;
    taking.inclusion = inclusion_;
    taking.gift = inclusion.gift;
    result_.kit_items.push_back(std::move(taking));
    return result_.kit_items.back();
  }

  // The paper of a kit: cut to size, or the sheets it takes to cut it.
  void parts(const Inclusion& inclusion, int stock) {
    if (!tier_.parts_cut) {
      if (uncut_of_ != inclusion_) uncut_ = fewest_sheets_for(only(project_, inclusion.cards));
      uncut_of_ = inclusion_;
      for (const StockSheets& one : uncut_.stocks)
        if (one.stock == stock && one.sheets > 0)
          start(inclusion, {ItemKind::Stock, stock}).sheets = one.sheets;
      return;
    }
    std::vector<StockCut> cuts;
    const std::vector<CutLine> lines = cut_list(project_);
    for (std::size_t i = 0; i < lines.size(); ++i) {
      const CutLine& line = lines[i];
      if (line.stock != stock || line.per_kit <= 0 || !serves(inclusion, line.piece.card)) continue;
      cuts.push_back({static_cast<int>(i), line.rectangle, line.per_kit});
    }
    if (!cuts.empty()) start(inclusion, {ItemKind::Stock, stock}).cuts = std::move(cuts);
  }

  static bool serves(const Inclusion& inclusion, int card) {
    return inclusion.cards.empty() ||
           std::find(inclusion.cards.begin(), inclusion.cards.end(), card) != inclusion.cards.end();
  }

  void sheets_or_pieces(const Inclusion& inclusion, int stock, std::int64_t whole, Size piece,
                        std::int64_t pieces) {
    KitItem& taking = start(inclusion, {ItemKind::Stock, stock});
    taking.sheets = whole;
    if (pieces > 0 && piece != Size{}) taking.cuts.push_back({-1, piece, pieces});
  }

  void stock(const Inclusion& inclusion) {
    const int index = inclusion.item.index;
    const Stock* stock = find_at(project_.stocks, index);
    if (!stock) return;
    const Amount& amount = inclusion.amount;
    const std::int64_t in_pack = stock->sheets.empty() ? 1 : stock->sheets.front().sold.count;
    switch (amount.kind) {
    case Amount::Kind::AsNeeded:
    case Amount::Kind::Length: parts(inclusion, index); return;
    case Amount::Kind::Whole:
      sheets_or_pieces(inclusion, index, in_pack * amount.count, {}, 0);
      return;
    case Amount::Kind::Count: sheets_or_pieces(inclusion, index, amount.count, {}, 0); return;
    case Amount::Kind::Sheets:
      if (amount.piece == Size{} || amount.piece == first_sheet(*stock))
        sheets_or_pieces(inclusion, index, amount.count, {}, 0);
      else
        sheets_or_pieces(inclusion, index, 0, amount.piece, amount.count);
      return;
    case Amount::Kind::Share: {
      const SheetShare share =
          share_of_sheets(in_pack, first_sheet(*stock), amount.numerator, amount.denominator);
      sheets_or_pieces(inclusion, index, share.whole, share.piece, share.pieces);
      return;
    }
    }
  }

  void pack(const Inclusion& inclusion) {
    const Pack* pack = find_at(project_.packs, inclusion.item.index);
    if (!pack) return;
    const Amount& amount = inclusion.amount;
    if (amount.kind == Amount::Kind::Whole || amount.kind == Amount::Kind::Count) {
      start(inclusion).packs = std::max(amount.count, 1);
      return;
    }
    for (const Pack::Line& line : pack->lines) {
      const Stock* stock = find_at(project_.stocks, line.stock);
      if (!stock) continue;
      if (amount.kind == Amount::Kind::Share) {
        const SheetShare share =
            share_of_sheets(line.sheets, first_sheet(*stock), amount.numerator, amount.denominator);
        sheets_or_pieces(inclusion, line.stock, share.whole, share.piece, share.pieces);
      } else if (amount.kind == Amount::Kind::Sheets) {
        const bool whole = amount.piece == Size{};
        sheets_or_pieces(inclusion, line.stock, whole ? amount.count : 0, amount.piece,
                         whole ? 0 : amount.count);
      } else {
        parts(inclusion, line.stock);
      }
    }
  }

  const Needs& needs(const Inclusion& inclusion) {
    if (inclusion.cards.empty()) {
      if (!needs_) needs_ = needs_of_kit(project_, 1);
      return *needs_;
    }
    some_ = needs_of_kit(only(project_, inclusion.cards), 1);
    return some_;
  }

  void ribbon(const Inclusion& inclusion) {
    const Ribbon* ribbon = find_at(project_.ribbons, inclusion.item.index);
    if (!ribbon) return;
    const Amount& amount = inclusion.amount;
    KitItem& taking = start(inclusion);
    switch (amount.kind) {
    case Amount::Kind::Whole:
    case Amount::Kind::Count:
    case Amount::Kind::Sheets: taking.packs = std::max(amount.count, 1); return;
    case Amount::Kind::Length: taking.lengths.push_back({amount.length, 1}); break;
    case Amount::Kind::Share:
      taking.lengths.push_back(
          {ribbon->spool * amount.numerator / std::max(amount.denominator, 1), 1});
      break;
    case Amount::Kind::AsNeeded: {
      const Need* need = find(needs(inclusion), inclusion.item);
      if (!need) break;
      if (tier_.parts_cut || need->length > ribbon->spool)
        for (const Need::Part& part : need->parts)
          taking.lengths.push_back({part.length, part.count});
      else // one length, for the buyer to cut
        taking.lengths.push_back({need->length, 1});
    }
    }
    for (const RibbonCut& cut : taking.lengths) taking.length += cut.length * cut.count;
  }

  // A promise is never rounded down.
  std::int64_t share_of(std::int64_t whole, const Inclusion& inclusion, std::string_view of_what) {
    const std::int64_t parts = whole * inclusion.amount.numerator;
    const std::int64_t by = std::max(inclusion.amount.denominator, 1);
    const std::int64_t share = (parts + by - 1) / by;
    if (parts % by != 0) {
      Finding finding;
      finding.severity = Severity::Warning;
      finding.code = "buy-share-broken";
      finding.place = inclusion.place;
      finding.found = fmt::format("{}/{} of a pack of {} {} is no whole number of them",
                                  inclusion.amount.numerator, by, whole, of_what);
      finding.expected = "a share that can be counted out";
      finding.fix = fmt::format("{} are given; write amount=\"{}\"", share, share);
      result_.findings.push_back(std::move(finding));
    }
    return share;
  }

  void counted(const Inclusion& inclusion) {
    const Amount& amount = inclusion.amount;
    const Sold* sold = sold_of(project_, inclusion.item);
    if (!sold) return;
    KitItem& taking = start(inclusion);
    switch (amount.kind) {
    case Amount::Kind::Whole: taking.packs = std::max(amount.count, 1); return;
    case Amount::Kind::Share:
      taking.pieces = share_of(sold->count, inclusion,
                               inclusion.item.kind == ItemKind::Envelope ? "envelopes" : "pieces");
      return;
    case Amount::Kind::Count:
    case Amount::Kind::Sheets: taking.pieces = amount.count; return;
    case Amount::Kind::AsNeeded:
    case Amount::Kind::Length:
      if (const Need* need = find(needs(inclusion), inclusion.item)) taking.pieces = need->count;
    }
  }

  void adhesive(const Inclusion& inclusion) {
    const Adhesive* adhesive = find_at(project_.adhesives, inclusion.item.index);
    if (!adhesive) return;
    const Amount& amount = inclusion.amount;
    KitItem& taking = start(inclusion);
    const bool by_count = adhesive->measured == Adhesive::Measured::ByCount;
    switch (amount.kind) {
    case Amount::Kind::Whole:
    case Amount::Kind::Sheets: taking.packs = std::max(amount.count, 1); return;
    case Amount::Kind::Count: (by_count ? taking.pieces : taking.packs) = amount.count; return;
    case Amount::Kind::Length: taking.length = amount.length; return;
    case Amount::Kind::Share: {
      const std::int64_t by = std::max(amount.denominator, 1);
      if (by_count) taking.pieces = share_of(adhesive->per_pack, inclusion, "pieces");
      if (adhesive->measured == Adhesive::Measured::ByLength)
        taking.length = adhesive->length * amount.numerator / by;
      if (adhesive->measured == Adhesive::Measured::ByMass)
        taking.mass = {(adhesive->mass.mg * amount.numerator + by - 1) / by};
      return;
    }
    case Amount::Kind::AsNeeded:
      if (const Need* need = find(needs(inclusion), inclusion.item)) {
        taking.pieces = need->count;
        taking.length = need->length;
        taking.mass = need->mass;
        taking.area = need->area;
      }
    }
  }

  const Project& project_;
  const Tier& tier_;
  KitContents result_;
  int inclusion_ = -1;
  std::optional<Needs> needs_;
  Needs some_;
  CuttingPlan uncut_; // of the inclusion `uncut_of_`
  int uncut_of_ = -1;
};

// Largest prime first, so that a third of a half is taken before the halves.
std::vector<std::int64_t> primes_of(std::int64_t n) {
  std::vector<std::int64_t> primes;
  for (std::int64_t p = 2; p * p <= n; ++p)
    for (; n % p == 0; n /= p) primes.push_back(p);
  if (n > 1) primes.push_back(n);
  std::reverse(primes.begin(), primes.end());
  return primes;
}

} // namespace

SheetShare share_of_sheets(std::int64_t sheets, Size sheet, std::int64_t numerator,
                           std::int64_t denominator) {
  SheetShare share;
  if (sheets <= 0 || numerator <= 0 || denominator <= 0) return share;
  const std::int64_t parts = sheets * numerator;
  share.whole = parts / denominator;
  const std::int64_t rest = parts % denominator;
  if (rest == 0) return share;
  const std::int64_t common = std::gcd(rest, denominator);
  share.pieces = rest / common;
  share.piece = sheet;
  for (const std::int64_t prime : primes_of(denominator / common)) {
    Length& side = share.piece.height > share.piece.width ? share.piece.height : share.piece.width;
    side = side / prime;
  }
  return share;
}

KitContents kit_contents_of(const Project& project, int tier) {
  const Tier* found = find_at(project.tiers, tier);
  return found ? KitContentsBuilder(project, *found).all() : KitContents{};
}

KitContents kit_contents_of(const Project& project, const Tier& tier) {
  return KitContentsBuilder(project, tier).all();
}

} // namespace leafwright::supply
