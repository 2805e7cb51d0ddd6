#include "plan/supply/internal/buying_basket.h"

#include "language/english.h"
#include "measure/index.h"
#include "measure/print_length.h"
#include "model/item.h"
#include "plan/supply/internal/buying_packs.h"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>
#include <utility>

namespace leafwright::supply {

std::int64_t rounded_up(std::int64_t a, std::int64_t b) {
  return b <= 0 ? a : (std::max<std::int64_t>(a, 0) + b - 1) / b;
}

std::int64_t in_hand(const Project& project, ItemRef item) {
  std::int64_t count = 0;
  for (const StockInHand& hand : project.run.in_hand)
    if (hand.item == item && hand.offcut == Size{} && hand.length == Length{}) count += hand.count;
  return count;
}

void purchase(Basket& basket, ItemRef item, int offer, std::int64_t packs, std::int64_t per_pack,
              const std::optional<Money>& price) {
  if (packs <= 0) return;
  Purchase bought{item, offer, packs, per_pack, price, {0, basket.total.currency}};
  if (price) bought.cost = *price * packs;
  basket.purchases.push_back(bought);
}

namespace {

using CountedIn = BuyingLine::CountedIn;

class Filling {
 public:
  Filling(const Project& project, const RunTotals& totals, const SheetCounts& cut)
      : project_(project), totals_(totals), cut_(cut) {
    basket_.total = {0, project.currency};
  }

  Basket fill() {
    fill_paper(project_, totals_, cut_, basket_);
    for (const auto& [key, item] : totals_.items) thing({key.first, key.second}, item);
    const auto order = [&](const auto& a, const auto& b) {
      const auto key = [&](const auto& one) {
        return std::tuple(group_of(project_, one.item), kind_row(one.item.kind).rank,
                          one.item.index, one.offer);
      };
      return key(a) < key(b);
    };
    std::stable_sort(basket_.lines.begin(), basket_.lines.end(), order);
    std::stable_sort(basket_.purchases.begin(), basket_.purchases.end(), order);
    for (const Purchase& purchase : basket_.purchases) {
      basket_.total = basket_.total + purchase.cost;
      if (!purchase.price) basket_.unpriced.push_back(purchase.item);
    }
    return std::move(basket_);
  }

 private:
  void thing(ItemRef item, const RunTotals::Item& total) {
    const Sold* sold = sold_of(project_, item);
    if (!sold) return;
    BuyingLine row;
    row.item = item;
    row.group = group_of(project_, item);
    row.length = total.length;
    row.mass = total.mass;
    row.area = total.area;
    row.in_hand = in_hand(project_, item);
    std::int64_t sealed = total.packs; // units in packs given unopened; none in hand serves as one
    std::int64_t per_pack = std::max(sold->count, 1);
    switch (kind_row(item.kind).counted) {
    case KindRow::Counted::Length: ribbon(row, total); return;
    case KindRow::Counted::Adhesive: per_pack *= adhesive(row, total, sealed); break;
    case KindRow::Counted::Pieces:
      row.unit = CountedIn::Pieces;
      sealed = total.packs * per_pack;
      row.needed = total.pieces + sealed;
      break;
    default:
      row.unit = CountedIn::Things;
      row.needed = total.pieces + total.packs;
      sealed = 0;
    }
    const std::int64_t loose = std::max<std::int64_t>(0, row.needed - sealed - row.in_hand);
    const std::int64_t packs = rounded_up(sealed, per_pack) + rounded_up(loose, per_pack);
    row.bought = packs * per_pack;
    finish(row, packs, per_pack, sold->price);
  }

  void finish(BuyingLine& row, std::int64_t packs, std::int64_t per_pack,
              const std::optional<Money>& price) {
    row.left = row.in_hand + row.bought - row.needed;
    if (row.needed == 0) return;
    purchase(basket_, row.item, -1, packs, per_pack, price);
    basket_.lines.push_back(std::move(row));
  }

  // Returns how many units one roll, bottle or packet is.
  std::int64_t adhesive(BuyingLine& row, const RunTotals::Item& total, std::int64_t& sealed) {
    const Adhesive& adhesive = at(project_.adhesives, row.item.index);
    if (adhesive.kind != Adhesive::Kind::Sheet &&
        adhesive.measured == Adhesive::Measured::ByCount) {
      const std::int64_t in_packet = std::max(adhesive.per_pack, 1);
      row.unit = CountedIn::Pieces;
      sealed = total.packs * in_packet;
      row.needed = total.pieces + sealed;
      return in_packet;
    }
    row.unit = CountedIn::Rolls;
    std::int64_t rolls = 0;
    if (adhesive.kind == Adhesive::Kind::Sheet)
      rolls = rounded_up(total.area.um2, area(adhesive.piece).um2);
    else if (adhesive.measured == Adhesive::Measured::ByLength)
      rolls = rounded_up((total.length - length_in_hand(row.item)).nm, adhesive.length.nm);
    else
      rolls = rounded_up(total.mass.mg, adhesive.mass.mg);
    row.needed = total.packs + rolls;
    return 1;
  }

  Length length_in_hand(ItemRef item) const {
    Length length{};
    for (const StockInHand& hand : project_.run.in_hand)
      if (hand.item == item) length += hand.length * std::max(hand.count, 1);
    return length;
  }

  void ribbon(BuyingLine& row, const RunTotals::Item& total) {
    const Ribbon& ribbon = at(project_.ribbons, row.item.index);
    spool::Job job;
    job.spool = ribbon.spool;
    for (const RibbonCut& cut : total.lengths) job.cuts.push_back({cut.length, cut.count});
    for (const StockInHand& hand : project_.run.in_hand)
      if (hand.item == row.item && hand.length > Length{})
        for (int i = 0; i < std::max(hand.count, 1); ++i) job.rests.push_back(hand.length);
    row.spools = spool::plan(job);
    for (const spool::Cut& cut : row.spools->impossible) too_long(ribbon, cut);
    row.unit = CountedIn::Spools;
    row.needed = row.spools->spools + total.packs;
    rests_left(row, job);
    const std::int64_t per_pack = std::max(ribbon.sold.count, 1);
    const std::int64_t packs = rounded_up(row.needed - row.in_hand, per_pack);
    row.bought = packs * per_pack;
    row.left = row.in_hand + row.bought - row.needed;
    purchase(basket_, row.item, -1, packs, per_pack, ribbon.sold.price);
    if (row.needed > 0 || !total.lengths.empty()) basket_.lines.push_back(std::move(row));
  }

  void rests_left(BuyingLine& row, const spool::Job& job) const {
    const bool inch = project_.printing.unit == Unit::Inch;
    const Length worth = inch ? inches(4) : millimetres(100);
    std::map<Length, std::int64_t, std::greater<>> rests;
    std::vector<bool> used(job.rests.size(), false);
    for (const spool::Reel& reel : row.spools->reels) {
      if (reel.rest >= 0) used.at(as_index(reel.rest)) = true;
      if (reel.left >= worth) rests[reel.left] += reel.times;
    }
    for (std::size_t i = 0; i < used.size(); ++i)
      if (!used[i] && job.rests[i] >= worth) rests[job.rests[i]] += 1;
    for (const auto& [length, count] : rests) row.lengths_left.push_back({length, count});
  }

  void too_long(const Ribbon& ribbon, const spool::Cut& cut) {
    const std::string_view noun = words::terms(project_.language).spool;
    Finding finding;
    finding.code = "buy-ribbon-too-long";
    finding.place = ribbon.place;
    finding.found = fmt::format("a piece of {} of {} is promised; one {} is {}",
                                unrounded(cut.length, project_.printing), ribbon.name, noun,
                                unrounded(ribbon.spool, project_.printing));
    finding.expected = fmt::format("pieces that come from one {}", noun);
    finding.fix = fmt::format("promise at most {}, or find a {} of at least {}",
                              unrounded(ribbon.spool, project_.printing), noun,
                              unrounded(cut.length, project_.printing));
    basket_.findings.push_back(std::move(finding));
  }

  const Project& project_;
  const RunTotals& totals_;
  const SheetCounts& cut_;
  Basket basket_;
};

} // namespace

Basket fill_basket(const Project& project, const RunTotals& totals, const SheetCounts& cut) {
  return Filling(project, totals, cut).fill();
}

} // namespace leafwright::supply
