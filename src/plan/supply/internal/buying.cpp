#include "plan/supply/buying.h"

#include "measure/index.h"
#include "plan/supply/internal/buying_basket.h"
#include "plan/supply/internal/sheet_price.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <limits>
#include <utility>

namespace leafwright::supply {

std::vector<KitContents> contents_of_tiers(const Project& project) {
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
    for (const KitItem& one : kit_items[tier].kit_items) {
      const auto index = as_index(std::max(one.item.index, 0));
      if (one.item.kind == ItemKind::Stock) {
        totals.sheets_given.at(index) += one.sheets * times;
        continue;
      }
      if (one.item.kind == ItemKind::Pack) {
        totals.packs_given.at(index) += one.packs * times;
        continue;
      }
      RunTotals::Item& item = totals.items[{one.item.kind, one.item.index}];
      item.packs += one.packs * times;
      item.pieces += one.pieces * times;
      item.length += one.length * times;
      item.mass += one.mass * times;
      item.area += one.area * times;
      for (const RibbonCut& cut : one.lengths)
        item.lengths.push_back({cut.length, cut.count * times});
    }
  }
  return totals;
}

namespace {

void append(Findings& to, Findings from) {
  to.insert(to.end(), std::make_move_iterator(from.begin()), std::make_move_iterator(from.end()));
}

// Rests of sheets that are worth a place in the box.
void add_offcuts(const Project& project, const CuttingPlan& sheets,
                 std::vector<BuyingLine>& lines) {
  for (const StockSheets& stock : sheets.stocks) {
    const auto line = std::find_if(lines.begin(), lines.end(), [&](const BuyingLine& one) {
      return one.item == ItemRef{ItemKind::Stock, stock.stock};
    });
    if (line == lines.end()) continue;
    line->area = stock.used;
    for (const SheetLayout& pattern : stock.layouts)
      for (const Rect& rest : pattern.leftovers) {
        if (!worth_keeping(project, rest.size)) continue;
        const auto same =
            std::find_if(line->offcuts_left.begin(), line->offcuts_left.end(),
                         [&](const BuyingLine::Offcut& one) { return one.size == rest.size; });
        if (same != line->offcuts_left.end())
          same->count += pattern.times;
        else
          line->offcuts_left.push_back({rest.size, pattern.times});
      }
    std::stable_sort(line->offcuts_left.begin(), line->offcuts_left.end(),
                     [](const BuyingLine::Offcut& a, const BuyingLine::Offcut& b) {
                       return area(a.size) > area(b.size);
                     });
  }
}

Findings without_price(const Project& project, const std::vector<ItemRef>& items) {
  Findings findings;
  for (const ItemRef item : items) {
    Finding finding;
    finding.severity = Severity::Warning;
    finding.code = "buy-no-price";
    finding.place = project.run.place;
    finding.found = fmt::format("{} has no price", item_name(project, item));
    finding.expected = "a price for everything you buy";
    finding.fix = "give it one, or the total stays too low";
    findings.push_back(std::move(finding));
  }
  return findings;
}

SheetCounts counts_of(const CuttingPlan& sheets) {
  SheetCounts counts;
  for (const StockSheets& stock : sheets.stocks)
    for (const StockSheets::OfSize& one : stock.by_size)
      counts[{stock.stock, one.offer}] += one.count;
  return counts;
}

bool of_one_size(const Project& project, const StockSheets& sheets) {
  return sheet_sizes_of(at(project.stocks, sheets.stock)).size() == 1;
}

// Of one size, the sheets that it takes for certain.
SheetCounts least_counts_of(const Project& project, const CuttingPlan& sheets) {
  SheetCounts counts;
  for (const StockSheets& stock : sheets.stocks)
    if (of_one_size(project, stock) && stock.at_least > 0)
      counts[{stock.stock, 0}] += stock.at_least;
  return counts;
}

// The least sum of pack prices, each as often as one likes, that is not below `amount`.
std::int64_t least_sum(const Stock& stock, std::int64_t amount) {
  constexpr std::int64_t most = 1'000'000; // minor units; beyond them the packs hardly show
  if (amount <= 0 || amount > most) return std::max<std::int64_t>(amount, 0);
  std::vector<char> reached(as_index(amount), 0);
  reached[0] = 1;
  std::int64_t best = std::numeric_limits<std::int64_t>::max();
  for (std::int64_t sum = 0; sum < amount; ++sum) {
    if (reached[as_index(sum)] == 0) continue;
    for (const SheetOffer& offer : stock.sheets) {
      const std::int64_t then = sum + offer.sold.price->minor;
      if (then < amount)
        reached[as_index(then)] = 1;
      else
        best = std::min(best, then);
    }
  }
  return best;
}

// What the packs of a stock of several sizes cost at the least: no plan takes sheets of less worth,
// and packs hold no more worth than they cost. Nil where that is not known.
std::int64_t least_for_sizes(const Project& project, const RunTotals& totals,
                             const StockSheets& sheets) {
  const Stock& stock = at(project.stocks, sheets.stock);
  const bool in_a_pack = std::ranges::any_of(project.packs, [&](const Pack& pack) {
    return std::ranges::find(pack.lines, sheets.stock, &Pack::Line::stock) != pack.lines.end();
  });
  if (!sheets.proven || in_a_pack || !all_priced(stock) ||
      at(totals.sheets_given, sheets.stock) > 0)
    return 0;
  std::int64_t worth = 0;
  for (const StockSheets::OfSize& one : sheets.by_size)
    worth += one.count * price_of_sheet(stock, at(stock.sheets, one.offer).size);
  return least_sum(stock, (worth + finer - 1) / finer);
}

// Nothing where sheets are in hand, since these cost nothing, or where the packs are not proven.
std::optional<Money> least_of(const Project& project, const RunTotals& totals,
                              const CuttingPlan& sheets) {
  if (!project.run.in_hand.empty()) return std::nullopt;
  const Basket least = fill_basket(project, totals, least_counts_of(project, sheets));
  if (!least.least_cost) return std::nullopt;
  Money sum = least.total;
  for (const StockSheets& stock : sheets.stocks)
    if (!of_one_size(project, stock)) sum.minor += least_for_sizes(project, totals, stock);
  return sum;
}

} // namespace

std::vector<int> planned_kits(const Project& project) {
  std::vector<int> kits(project.tiers.size(), 0);
  const auto add = [&](int tier, int count) {
    constexpr int most = 100'000'000; // what a hostile list may add up to
    if (tier < 0 || as_index(tier) >= kits.size()) return;
    int& of_tier = kits[as_index(tier)];
    of_tier = std::min(of_tier + std::clamp(count, 0, most), most);
  };
  for (const Order& order : project.run.orders) add(order.tier, order.quantity);
  if (project.run.orders.empty())
    for (const TierCount& planned : project.run.planned) add(planned.tier, planned.kits);
  return kits;
}

Buying buying_for(const Project& project, std::span<const KitKind> kinds, const cut::Effort& effort,
                  cut::Objective objective) {
  Buying buying;
  buying.kits.assign(project.tiers.size(), 0);
  std::vector<KitContents> kit_items;
  std::vector<int> counts;
  for (const KitKind& kind : kinds) {
    buying.kits.at(as_index(kind.tier)) += kind.kits;
    kit_items.push_back(kind.kit_items);
    counts.push_back(kind.kits);
    if (kind.kits > 0) append(buying.findings, kind.kit_items.findings);
  }
  const RunTotals totals = totals_of(project, kit_items, counts);
  buying.sheets = pieces_of_run(project, kit_items, counts);
  CutOptions options;
  options.objective = objective;
  options.given = totals.sheets_given;
  options.effort = effort;
  lay_out(buying.sheets, project, options);

  Basket basket = fill_basket(project, totals, counts_of(buying.sheets));
  buying.at_least = least_of(project, totals, buying.sheets);
  add_offcuts(project, buying.sheets, basket.lines);
  buying.lines = std::move(basket.lines);
  buying.purchases = std::move(basket.purchases);
  buying.total = basket.total;
  buying.unpriced = std::move(basket.unpriced);
  buying.least_cost = basket.least_cost;

  append(buying.findings, buying.sheets.findings);
  append(buying.findings, std::move(basket.findings));
  append(buying.findings, stranded_shares(project, kinds, buying.purchases));
  append(buying.findings, without_price(project, buying.unpriced));
  return buying;
}

// --- The quick cost ----------------------------------------------------------------------------

struct RunCost::Parts {
  Project project;
  std::vector<KitContents> kit_items;
  struct Paper { // what the exact plan of the reference makes of a stock
    int offer = 0;
    std::int64_t sheets = 0;
    Area used{}, sheet{};
  };
  std::vector<Paper> papers; // by stock
};

namespace {

CuttingPlan reference_sheets(const Project& project, const cut::Effort& effort) {
  std::vector<int> reference = planned_kits(project);
  if (std::all_of(reference.begin(), reference.end(), [](int n) { return n == 0; }))
    std::fill(reference.begin(), reference.end(), 1);
  return sheets_for_run(project, reference, effort);
}

} // namespace

RunCost::RunCost(const Project& project, const cut::Effort& effort)
    : RunCost(project, reference_sheets(project, effort)) {}

RunCost::RunCost(const Project& project, const CuttingPlan& run)
    : parts_(std::make_unique<Parts>()) {
  parts_->project = project;
  parts_->project.pictures.clear();
  parts_->kit_items = contents_of_tiers(project);
  parts_->papers.resize(project.stocks.size());
  for (std::size_t i = 0; i < project.stocks.size(); ++i)
    if (!project.stocks[i].sheets.empty())
      parts_->papers[i].sheet = area(project.stocks[i].sheets.front().size);
  for (const StockSheets& stock : run.stocks) {
    Parts::Paper& paper = parts_->papers.at(as_index(stock.stock));
    std::int64_t most = 0;
    for (const StockSheets::OfSize& one : stock.by_size)
      if (one.count > most) {
        most = one.count;
        paper.offer = one.offer;
      }
    const Stock& of = project.stocks[as_index(stock.stock)];
    paper.sheet = area(of.sheets.at(as_index(paper.offer)).size);
    paper.sheets = stock.sheets;
    paper.used = stock.used;
  }
}

RunCost::RunCost(RunCost&&) noexcept = default;
RunCost& RunCost::operator=(RunCost&&) noexcept = default;
RunCost::~RunCost() = default;

Money RunCost::operator()(std::span<const int> kits) const {
  __extension__ using Wide = __int128;
  const Project& project = parts_->project;
  const RunTotals totals = totals_of(project, parts_->kit_items, kits);
  const CuttingPlan run = pieces_of_run(project, parts_->kit_items, kits);
  std::vector<std::int64_t> wanted(project.stocks.size(), 0); // square micrometres
  for (const CutPiece& piece : run.pieces)
    wanted[as_index(piece.stock)] += area(piece.size).um2 * (piece.wanted + piece.spare);
  SheetCounts counts;
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    const Parts::Paper& paper = parts_->papers[i];
    if (wanted[i] <= 0 || paper.sheet.um2 <= 0) continue;
    std::int64_t sheets = (wanted[i] - 1) / paper.sheet.um2 + 1;
    if (paper.used.um2 > 0) {
      const Wide estimate = (Wide{wanted[i]} * paper.sheets + paper.used.um2 - 1) / paper.used.um2;
      sheets = std::max(sheets, static_cast<std::int64_t>(estimate));
    }
    counts[{static_cast<int>(i), paper.offer}] = sheets;
  }
  return fill_basket(project, totals, counts).total;
}

} // namespace leafwright::supply
