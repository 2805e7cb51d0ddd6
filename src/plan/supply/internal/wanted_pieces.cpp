#include "measure/index.h"
#include "plan/supply/kits.h"
#include "plan/supply/sheets.h"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>
#include <utility>

namespace leafwright::supply {

namespace {

SheetOrientation orientation_of_line(const Project& project, const CutLine& line) {
  const Stock& stock = project.stocks.at(as_index(line.stock));
  if (line.piece.card < 0)
    return stock.upright ? SheetOrientation::Upright : SheetOrientation::Either;
  return sheet_orientation(stock, piece_of(project, line.piece));
}

// The line of a share of a sheet; one line for each size and stock.
std::size_t share_line(std::vector<CutLine>& lines, const Project& project, int stock, Size size) {
  int number = 1;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const CutLine& line = lines[i];
    if (line.piece.card >= 0) continue;
    if (line.stock == stock && line.rectangle == size) return i;
    ++number;
  }
  CutLine line;
  line.letter = fmt::format("S{}", number);
  line.stock = stock;
  line.rectangle = size;
  line.may_turn = !project.stocks.at(as_index(stock)).upright;
  line.per_card = line.per_set = line.per_kit = 0;
  lines.push_back(std::move(line));
  return lines.size() - 1;
}

// The tier with nothing but what may come as pieces of sheets: its other things are worked out from
// the cards, which takes a plan of cutting.
Tier paper_shares(const Tier& tier, bool with_swaps) {
  Tier shares = tier;
  const auto is_share = [](ItemRef item, const Amount& amount) {
    return (item.kind == ItemKind::Stock || item.kind == ItemKind::Pack) &&
           (amount.kind == Amount::Kind::Share || amount.kind == Amount::Kind::Sheets);
  };
  for (Inclusion& one : shares.includes)
    if (!is_share(one.item, one.amount)) one.item = {ItemKind::Tutorial, -1};
  if (!with_swaps) return shares;
  for (const SwapChoice& choice : tier.substitution.choices)
    if (is_share(choice.item, choice.amount)) {
      Inclusion one;
      one.item = choice.item;
      one.amount = choice.amount;
      shares.includes.push_back(std::move(one));
    }
  return shares;
}

std::int64_t spare_of(const Run& run, std::int64_t wanted) {
  if (wanted <= 0) return 0;
  return (wanted * std::max(run.spare_percent, 0) + 99) / 100 + std::max(run.spare_pieces, 0);
}

void add_letter(CutPiece& piece, const std::string& letter) {
  if (letter.empty()) return;
  for (std::size_t at = 0; at < piece.letters.size();) { // the same letter once
    const std::size_t end = std::min(piece.letters.find(' ', at), piece.letters.size());
    if (piece.letters.compare(at, end - at, letter) == 0) return;
    at = end + 1;
  }
  piece.letters += (piece.letters.empty() ? "" : " ") + letter;
}

// Pieces that lie alike are one; of them so many are spare.
void gather_pieces(CuttingPlan& run, const Project& project) {
  for (std::size_t i = 0; i < run.lines.size(); ++i) {
    if (run.wanted[i] <= 0) continue;
    const CutLine& line = run.lines[i];
    const SheetOrientation orientation = orientation_of_line(project, line);
    auto same = std::find_if(run.pieces.begin(), run.pieces.end(), [&](const CutPiece& piece) {
      return piece.stock == line.stock && piece.orientation == orientation &&
             (piece.size == line.rectangle ||
              (orientation == SheetOrientation::Either && piece.size == line.rectangle.turned()));
    });
    if (same == run.pieces.end())
      same = run.pieces.insert(run.pieces.end(),
                               {line.stock, line.rectangle, orientation, {}, {}, 0, 0});
    same->lines.push_back(static_cast<int>(i));
    same->wanted += run.wanted[i];
    add_letter(*same, line.letter);
  }
  for (CutPiece& piece : run.pieces) {
    piece.spare = spare_of(project.run, piece.wanted);
    run.spare[as_index(piece.lines.front())] = piece.spare;
  }
  std::stable_sort(run.pieces.begin(), run.pieces.end(), [](const CutPiece& a, const CutPiece& b) {
    return std::tuple(a.stock, -area(a.size).um2) < std::tuple(b.stock, -area(b.size).um2);
  });
}

} // namespace

std::vector<CutLine> share_lines(const Project& project) {
  std::vector<CutLine> lines;
  for (const Tier& tier : project.tiers)
    for (const KitItem& taking : kit_contents_of(project, paper_shares(tier, true)).kit_items)
      for (const StockCut& cut : taking.cuts)
        share_line(lines, project, taking.item.index, cut.size);
  return lines;
}

std::vector<KitShare> shares_of(const Project& project, const Tier& tier) {
  std::vector<KitShare> shares;
  std::vector<CutLine> lines = share_lines(project);
  for (const KitItem& taking : kit_contents_of(project, paper_shares(tier, false)).kit_items)
    for (const StockCut& cut : taking.cuts) {
      const std::size_t line = share_line(lines, project, taking.item.index, cut.size);
      shares.push_back({lines[line].letter, taking.item.index, cut.size, cut.count, taking.gift,
                        taking.inclusion});
    }
  return shares;
}

CuttingPlan pieces_of_run(const Project& project, const std::vector<KitContents>& kit_items,
                          std::span<const int> kits) {
  CuttingPlan run;
  run.lines = cut_list(project);
  for (CutLine& share : share_lines(project)) run.lines.push_back(std::move(share));
  run.wanted.assign(run.lines.size(), 0);
  for (std::size_t tier = 0; tier < std::min(kit_items.size(), kits.size()); ++tier) {
    if (kits[tier] <= 0) continue;
    for (const KitItem& taking : kit_items[tier].kit_items)
      for (const StockCut& cut : taking.cuts) {
        const std::size_t line = cut.line >= 0
                                     ? as_index(cut.line)
                                     : share_line(run.lines, project, taking.item.index, cut.size);
        run.wanted.resize(run.lines.size(), 0);
        run.wanted.at(line) += cut.count * kits[tier];
      }
  }
  run.spare.assign(run.lines.size(), 0);
  gather_pieces(run, project);
  return run;
}

std::vector<int> sheet_sizes_of(const Stock& stock) {
  std::vector<int> sizes;
  for (std::size_t i = 0; i < stock.sheets.size(); ++i)
    if (std::none_of(sizes.begin(), sizes.end(), [&](int known) {
          return stock.sheets[as_index(known)].size == stock.sheets[i].size;
        }))
      sizes.push_back(static_cast<int>(i));
  return sizes;
}

CuttingPlan sheets_for_run(const Project& project, std::span<const int> kits,
                           const cut::Effort& effort) {
  std::vector<KitContents> kit_items;
  CutOptions options;
  options.effort = effort;
  options.given.assign(project.stocks.size(), 0);
  for (std::size_t tier = 0; tier < project.tiers.size(); ++tier) {
    kit_items.push_back(kit_contents_of(project, static_cast<int>(tier)));
    const std::int64_t times = tier < kits.size() ? std::max(kits[tier], 0) : 0;
    for (const KitItem& taking : kit_items.back().kit_items)
      if (taking.item.kind == ItemKind::Stock)
        options.given.at(as_index(taking.item.index)) += taking.sheets * times;
  }
  CuttingPlan run = pieces_of_run(project, kit_items, kits);
  lay_out(run, project, options);
  return run;
}

namespace {

// Line by line: each keeps its letter, for nothing is counted out afterwards.
CuttingPlan pieces_of_kits(const Project& project, int kits) {
  CuttingPlan plan;
  plan.lines = cut_list(project);
  plan.spare.assign(plan.lines.size(), 0);
  for (std::size_t i = 0; i < plan.lines.size(); ++i) {
    const CutLine& line = plan.lines[i];
    plan.wanted.push_back(std::int64_t{line.per_kit} * std::max(kits, 0));
    if (plan.wanted.back() > 0)
      plan.pieces.push_back({line.stock,
                             line.rectangle,
                             orientation_of_line(project, line),
                             {static_cast<int>(i)},
                             line.letter,
                             plan.wanted.back(),
                             0});
  }
  return plan;
}

CuttingPlan laid_out(const Project& project, int kits, cut::Objective objective,
                     PlanCache* cache = nullptr) {
  constexpr std::int64_t work_of_a_kit = 100'000'000; // an answer at once
  CutOptions options;
  options.objective = objective;
  options.in_hand = false; // of the maker, not of who cuts the kit
  options.cache = cache;
  if (kits <= 1) options.effort.work = work_of_a_kit;
  CuttingPlan plan = pieces_of_kits(project, kits);
  lay_out(plan, project, options);
  return plan;
}

} // namespace

CuttingPlan sheets_for(const Project& project, int kits) {
  return laid_out(project, kits,
                  kits <= 1 ? cut::Objective::LeastHandling : cut::Objective::FewestSheets);
}
CuttingPlan sheets_for(const Project& project, PlanCache& kept) {
  return laid_out(project, 1, cut::Objective::LeastHandling, &kept);
}
CuttingPlan fewest_sheets_for(const Project& project, int kits) {
  return laid_out(project, kits, cut::Objective::SheetCount);
}

} // namespace leafwright::supply
