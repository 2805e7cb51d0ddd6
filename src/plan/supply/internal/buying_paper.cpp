#include "measure/index.h"
#include "plan/supply/internal/buying_basket.h"
#include "plan/supply/internal/buying_packs.h"

#include <algorithm>
#include <utility>

// Paper in the basket: stocks by sheet size, tied together by packs that hold several of them.

namespace leafwright::supply {

namespace {

class PaperFilling {
 public:
  PaperFilling(const Project& project, const RunTotals& totals, const SheetCounts& cut,
               Basket& basket)
      : project_(project), totals_(totals), cut_(cut), basket_(basket) {}

  void fill() {
    std::vector<Paper> papers;
    for (std::size_t s = 0; s < project_.stocks.size(); ++s)
      for (const int offer : sheet_sizes_of(project_.stocks[s])) {
        const int stock = static_cast<int>(s);
        Paper paper{stock, offer, 0, 0};
        const auto found = cut_.find({stock, offer});
        paper.needed = found == cut_.end() ? 0 : found->second;
        if (offer == 0) {
          paper.needed += totals_.sheets_given.at(s);
          paper.in_hand = in_hand(project_, {ItemKind::Stock, stock});
        }
        papers.push_back(paper);
      }
    std::vector<PackUse> packs = packs_in_hand(papers);
    buy_paper(papers, packs);
    for (std::size_t p = 0; p < packs.size(); ++p) pack_line(static_cast<int>(p), packs[p]);
  }

 private:
  struct Paper {
    int stock, offer;
    std::int64_t needed = 0, in_hand = 0;
  };

  struct PackUse {
    std::int64_t needed = 0, in_hand = 0, bought = 0; // needed: given unopened, and opened
  };

  // Packs given unopened leave those in hand first; of the others as many are opened as serve.
  std::vector<PackUse> packs_in_hand(std::vector<Paper>& papers) const {
    std::vector<PackUse> uses;
    for (std::size_t p = 0; p < project_.packs.size(); ++p) {
      const Pack& pack = project_.packs[p];
      PackUse use;
      use.in_hand = in_hand(project_, {ItemKind::Pack, static_cast<int>(p)});
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
      purchase(basket_, all[i].item, all[i].offer, choice.packs[i], all[i].per_pack, all[i].price);
      for (const auto& [need, units] : all[i].numbers.holds)
        bought[as_index(need)] += units * choice.packs[i];
    }
    for (std::size_t p = 0; p < packs.size(); ++p) {
      std::int64_t sheets = 0;
      for (const Pack::Line& line : project_.packs[p].lines) sheets += line.sheets;
      purchase(basket_, {ItemKind::Pack, static_cast<int>(p)}, -1, packs[p].bought, sheets,
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

  using CountedIn = BuyingLine::CountedIn;
  const Project& project_;
  const RunTotals& totals_;
  const SheetCounts& cut_;
  Basket& basket_;
};

} // namespace

void fill_paper(const Project& project, const RunTotals& totals, const SheetCounts& cut,
                Basket& basket) {
  PaperFilling(project, totals, cut, basket).fill();
}

} // namespace leafwright::supply
