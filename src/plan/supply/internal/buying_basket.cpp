#include "plan/supply/internal/buying_basket.h"

#include "measure/index.h"
#include "measure/print_length.h"
#include "model/item.h"
#include "plan/supply/internal/buying_packs.h"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>
#include <utility>

namespace leafwright::supply {

namespace {

using CountedIn = BuyingLine::CountedIn;

std::int64_t rounded_up(std::int64_t a, std::int64_t b) {
  return b <= 0 ? a : (std::max<std::int64_t>(a, 0) + b - 1) / b;
}

class Filling {
 public:
  Filling(const Project& project, const RunTotals& totals, const SheetCounts& cut)
      : project_(project), totals_(totals), cut_(cut) {
    basket_.total = {0, project.currency};
  }

  Basket fill() {
    paper();
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
  std::int64_t in_hand(ItemRef item) const {
    std::int64_t count = 0;
    for (const StockInHand& hand : project_.run.in_hand)
      if (hand.item == item && hand.offcut == Size{} && hand.length == Length{})
        count += hand.count;
    return count;
  }

  void purchase(ItemRef item, int offer, std::int64_t packs, std::int64_t per_pack,
                const std::optional<Money>& price) {
    if (packs <= 0) return;
    Purchase bought{item, offer, packs, per_pack, price, {0, project_.currency}};
    if (price) bought.cost = *price * packs;
    basket_.purchases.push_back(bought);
  }

  // --- Paper: stocks by sheet size, tied together by packs that hold several of them.

  struct Paper {
    int stock, offer;
    std::int64_t needed = 0, in_hand = 0;
  };

  void paper() {
    std::vector<Paper> papers;
    for (std::size_t s = 0; s < project_.stocks.size(); ++s)
      for (const int offer : sheet_sizes_of(project_.stocks[s])) {
        const int stock = static_cast<int>(s);
        Paper paper{stock, offer, 0, 0};
        const auto found = cut_.find({stock, offer});
        paper.needed = found == cut_.end() ? 0 : found->second;
        if (offer == 0) {
          paper.needed += totals_.sheets_given.at(s);
          paper.in_hand = in_hand({ItemKind::Stock, stock});
        }
        papers.push_back(paper);
      }
    std::vector<PackUse> packs = packs_in_hand(papers);
    buy_paper(papers, packs);
    for (std::size_t p = 0; p < packs.size(); ++p) pack_line(static_cast<int>(p), packs[p]);
  }

  struct PackUse {
    std::int64_t needed = 0, in_hand = 0, bought = 0; // needed: given unopened, and opened
  };

  // Packs given unopened leave those in hand first; of the others as many are opened as serve.
  std::vector<PackUse> packs_in_hand(std::vector<Paper>& papers) const {
    std::vector<PackUse> uses;
    for (std::size_t p = 0; p < project_.packs.size(); ++p) {
      const Pack& pack = project_.packs[p];
      PackUse use;
      use.in_hand = in_hand({ItemKind::Pack, static_cast<int>(p)});
      use.needed = totals_.packs_given.at(p);
      use.bought = std::max<std::int64_t>(0, use.needed - use.in_hand);
      const std::int64_t spare = std::max<std::int64_t>(0, use.in_hand - use.needed);
      std::int64_t serve = 0;
      for (const Pack::Line& line : pack.lines)
        for (const Paper& paper : papers)
          if (paper.stock == line.stock && paper.offer == 0)
            serve = std::max(serve, rounded_up(paper.needed - paper.in_hand, line.sheets));
      const std::int64_t opened = std::min(spare, serve);
      use.needed += opened;
      for (const Pack::Line& line : pack.lines)
        for (Paper& paper : papers)
          if (paper.stock == line.stock && paper.offer == 0) paper.in_hand += opened * line.sheets;
      uses.push_back(use);
    }
    return uses;
  }

  void pack_line(int pack, const PackUse& use) {
    if (use.needed <= 0) return;
    BuyingLine row;
    row.item = {ItemKind::Pack, pack};
    row.group = group_of(project_, row.item);
    row.unit = CountedIn::Things;
    row.needed = use.needed;
    row.in_hand = use.in_hand;
    row.bought = use.bought;
    row.left = row.in_hand + row.bought - row.needed;
    basket_.lines.push_back(std::move(row));
  }

  struct Candidate {
    ItemRef item;
    int offer = -1;
    std::int64_t per_pack = 1;
    std::optional<Money> price;
    PackOffer numbers;
  };

  std::vector<Candidate> candidates(const std::vector<Paper>& papers,
                                    const std::vector<std::int64_t>& open) const {
    std::vector<Candidate> all;
    for (std::size_t n = 0; n < papers.size(); ++n) {
      const Stock& stock = at(project_.stocks, papers[n].stock);
      const Size size = at(stock.sheets, papers[n].offer).size;
      for (std::size_t o = 0; o < stock.sheets.size(); ++o) {
        const SheetOffer& offer = stock.sheets[o];
        if (offer.size != size) continue;
        const std::int64_t count = std::max(offer.sold.count, 1);
        all.push_back({{ItemKind::Stock, papers[n].stock},
                       static_cast<int>(o),
                       count,
                       offer.sold.price,
                       {0, {{static_cast<int>(n), count}}}});
      }
    }
    for (std::size_t p = 0; p < project_.packs.size(); ++p) {
      Candidate one{{ItemKind::Pack, static_cast<int>(p)}, -1, 0, project_.packs[p].price, {}};
      for (const Pack::Line& line : project_.packs[p].lines)
        for (std::size_t n = 0; n < papers.size(); ++n)
          if (papers[n].stock == line.stock && papers[n].offer == 0) {
            one.per_pack += line.sheets;
            if (open[n] > 0) one.numbers.holds.emplace_back(static_cast<int>(n), line.sheets);
          }
      if (!one.numbers.holds.empty()) all.push_back(std::move(one));
    }
    for (Candidate& one : all) one.numbers.price = one.price ? one.price->minor : 0;
    return all;
  }

  // What has a price somewhere is not bought where it has none.
  static void drop_unpriced(std::vector<Candidate>& all, std::size_t needs) {
    std::vector<bool> priced(needs, false);
    for (const Candidate& one : all)
      if (one.price)
        for (const auto& hold : one.numbers.holds) priced[as_index(hold.first)] = true;
    std::erase_if(all, [&](const Candidate& one) {
      return !one.price &&
             std::any_of(one.numbers.holds.begin(), one.numbers.holds.end(),
                         [&](const auto& hold) { return priced[as_index(hold.first)]; });
    });
  }

  void buy_paper(std::vector<Paper>& papers, std::vector<PackUse>& packs) {
    std::vector<std::int64_t> open;
    open.reserve(papers.size());
    for (const Paper& paper : papers)
      open.push_back(std::max<std::int64_t>(0, paper.needed - paper.in_hand));
    std::vector<Candidate> all = candidates(papers, open);
    drop_unpriced(all, papers.size());
    std::vector<PackOffer> offers;
    offers.reserve(all.size());
    for (const Candidate& one : all) offers.push_back(one.numbers);
    const PackChoice choice = choose_packs(open, offers);
    basket_.least_cost = basket_.least_cost && choice.exact;

    std::vector<std::int64_t> bought(papers.size(), 0);
    for (std::size_t i = 0; i < all.size(); ++i) {
      if (all[i].item.kind == ItemKind::Pack) {
        packs.at(as_index(all[i].item.index)).needed += choice.packs[i];
        packs.at(as_index(all[i].item.index)).bought += choice.packs[i];
        add_opened(papers, bought, all[i].item.index, choice.packs[i]);
        continue;
      }
      purchase(all[i].item, all[i].offer, choice.packs[i], all[i].per_pack, all[i].price);
      for (const auto& [need, units] : all[i].numbers.holds)
        bought[as_index(need)] += units * choice.packs[i];
    }
    for (std::size_t p = 0; p < packs.size(); ++p) {
      std::int64_t sheets = 0;
      for (const Pack::Line& line : project_.packs[p].lines) sheets += line.sheets;
      purchase({ItemKind::Pack, static_cast<int>(p)}, -1, packs[p].bought, sheets,
               project_.packs[p].price);
    }
    for (std::size_t n = 0; n < papers.size(); ++n) paper_line(papers[n], bought[n]);
  }

  void add_opened(const std::vector<Paper>& papers, std::vector<std::int64_t>& bought, int pack,
                  std::int64_t times) const {
    for (const Pack::Line& line : at(project_.packs, pack).lines)
      for (std::size_t n = 0; n < papers.size(); ++n)
        if (papers[n].stock == line.stock && papers[n].offer == 0) bought[n] += line.sheets * times;
  }

  void paper_line(const Paper& paper, std::int64_t bought) {
    if (paper.needed == 0 && bought == 0) return;
    BuyingLine row;
    row.item = {ItemKind::Stock, paper.stock};
    row.offer = paper.offer;
    row.group = group_of(project_, row.item);
    row.unit = CountedIn::Sheets;
    row.needed = paper.needed;
    row.in_hand = paper.in_hand;
    row.bought = bought;
    row.left = row.in_hand + row.bought - row.needed;
    basket_.lines.push_back(std::move(row));
  }

  // --- Everything else: one item, one kind of pack.

  void thing(ItemRef item, const RunTotals::Item& total) {
    const Sold* sold = sold_of(project_, item);
    if (!sold) return;
    BuyingLine row;
    row.item = item;
    row.group = group_of(project_, item);
    row.length = total.length;
    row.mass = total.mass;
    row.area = total.area;
    row.in_hand = in_hand(item);
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
    purchase(row.item, -1, packs, per_pack, price);
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
    purchase(row.item, -1, packs, per_pack, ribbon.sold.price);
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
    Finding finding;
    finding.code = "buy-ribbon-too-long";
    finding.place = ribbon.place;
    finding.found = fmt::format("a piece of {} of {} is promised; one spool is {}",
                                unrounded(cut.length, project_.printing), ribbon.name,
                                unrounded(ribbon.spool, project_.printing));
    finding.expected = "pieces that come from one spool";
    finding.fix = fmt::format("promise at most {}, or find a spool of at least {}",
                              unrounded(ribbon.spool, project_.printing),
                              unrounded(cut.length, project_.printing));
    basket_.findings.push_back(std::move(finding));
  }

  const Project& project_;
  const RunTotals& totals_;
  const SheetCounts& cut_;
  Basket basket_;
};

} // namespace

std::vector<KitContents> all_takings(const Project& project) {
  std::vector<KitContents> all;
  for (std::size_t tier = 0; tier < project.tiers.size(); ++tier)
    all.push_back(kit_contents_of(project, static_cast<int>(tier)));
  return all;
}

RunTotals totals_of(const Project& project, const std::vector<KitContents>& kit_items,
                    std::span<const int> kits) {
  RunTotals totals;
  totals.sheets_given.assign(project.stocks.size(), 0);
  totals.packs_given.assign(project.packs.size(), 0);
  for (std::size_t tier = 0; tier < std::min(kit_items.size(), kits.size()); ++tier) {
    const std::int64_t times = kits[tier];
    if (times <= 0) continue;
    for (const KitItem& taking : kit_items[tier].kit_items) {
      const auto index = as_index(std::max(taking.item.index, 0));
      if (taking.item.kind == ItemKind::Stock) {
        totals.sheets_given.at(index) += taking.sheets * times;
        continue;
      }
      if (taking.item.kind == ItemKind::Pack) {
        totals.packs_given.at(index) += taking.packs * times;
        continue;
      }
      RunTotals::Item& item = totals.items[{taking.item.kind, taking.item.index}];
      item.packs += taking.packs * times;
      item.pieces += taking.pieces * times;
      item.length += taking.length * times;
      item.mass += taking.mass * times;
      item.area += taking.area * times;
      for (const RibbonCut& cut : taking.lengths)
        item.lengths.push_back({cut.length, cut.count * times});
    }
  }
  return totals;
}

Basket fill_basket(const Project& project, const RunTotals& totals, const SheetCounts& cut) {
  return Filling(project, totals, cut).fill();
}

} // namespace leafwright::supply
