#include "plan/supply/shortfall.h"

#include "measure/index.h"
#include "plan/supply/lie.h"
#include "plan/supply/sheets.h"
#include "plan/supply/takings.h"
#include "plan/supply/trimmer.h"

#include <algorithm>
#include <map>
#include <optional>
#include <string>
#include <utility>

namespace leafwright::supply {

namespace {

// What a buyer holds of one stock to cut her parts from.
struct Held {
  std::int64_t sheets = 0;
  std::vector<StockCut> pieces;
};

struct Holdings {
  std::map<int, Held> stocks;
  std::map<int, std::int64_t> cut; // by line of the cut list
};

Holdings holdings_of(const Project& project, const Tier& tier) {
  Holdings all;
  for (const Taking& taking : takings_of(project, tier).takings) {
    if (taking.item.kind == ItemKind::Pack && taking.packs > 0)
      for (const Pack::Line& line : project.packs.at(as_index(taking.item.index)).lines)
        all.stocks[line.stock].sheets += line.sheets * taking.packs;
    if (taking.item.kind != ItemKind::Stock) continue;
    all.stocks[taking.item.index].sheets += taking.sheets;
    for (const StockCut& cut : taking.cuts) {
      if (cut.line >= 0)
        all.cut[cut.line] += cut.count;
      else
        all.stocks[taking.item.index].pieces.push_back(cut);
    }
  }
  return all;
}

void add_sheet(cut::Job& job, Size size, std::int64_t price, std::optional<std::int64_t> limit) {
  cut::SheetType sheet;
  sheet.id = std::to_string(job.sheets.size());
  sheet.width = size.width.nm;
  sheet.height = size.height.nm;
  sheet.price = price;
  sheet.limit = limit;
  job.sheets.push_back(std::move(sheet));
}

} // namespace

std::vector<Shortfall> shortfalls_of(const Project& project, const Tier& tier) {
  std::vector<Shortfall> out;
  const Holdings held = holdings_of(project, tier);
  const std::vector<CutLine> lines = cut_list(project);
  for (const auto& [index, holding] : held.stocks) {
    const Stock& stock = project.stocks.at(as_index(index));
    if (stock.sheets.empty()) continue;
    cut::Job job;
    job.rules = cutting_rules();
    for (std::size_t i = 0; i < lines.size(); ++i) {
      const CutLine& line = lines[i];
      if (line.stock != index) continue;
      const auto done = held.cut.find(static_cast<int>(i));
      const std::int64_t wanted = line.per_kit - (done == held.cut.end() ? 0 : done->second);
      const Piece& piece =
          project.cards.at(as_index(line.piece.card)).pieces.at(as_index(line.piece.piece));
      const Lie lie = lie_of(stock, piece);
      if (wanted <= 0 || !fits_a_sheet(stock, line.rectangle, lie)) continue;
      const Size size = lie == Lie::Turned ? line.rectangle.turned() : line.rectangle;
      job.pieces.push_back(
          {line.letter, size.width.nm, size.height.nm, wanted, lie == Lie::Either});
    }
    if (job.pieces.empty()) continue;
    const Size whole = stock.sheets.front().size;
    for (const StockCut& piece : holding.pieces) add_sheet(job, piece.size, 0, piece.count);
    if (holding.sheets > 0) add_sheet(job, whole, 0, holding.sheets);
    add_sheet(job, whole, 1, std::nullopt);
    const cut::Plan plan = cut::plan(job);
    if (plan.findings.empty() && plan.cost > 0)
      out.push_back({index, plan.cost, !holding.pieces.empty()});
  }
  return out;
}

bool gives_pieces_of_sheets(const Project& project, const Tier& tier) {
  const std::vector<CutLine> lines = cut_list(project);
  const Holdings held = holdings_of(project, tier);
  return std::ranges::any_of(held.stocks, [&](const auto& one) {
    return !one.second.pieces.empty() &&
           std::ranges::any_of(lines, [&](const CutLine& line) { return line.stock == one.first; });
  });
}

} // namespace leafwright::supply
