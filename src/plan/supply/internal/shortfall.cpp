#include "plan/supply/needs.h"

#include "measure/index.h"
#include "plan/supply/internal/fine_units.h"
#include "plan/supply/kits.h"
#include "plan/supply/sheets.h"

#include <algorithm>
#include <map>
#include <optional>
#include <string>
#include <utility>

namespace leafwright::supply {

namespace {

// The piece as it is to one who opens its envelope.
void take_from(Piece& piece, const PartsReady& ready) {
  if (ready.die_cut) {
    if (piece.cut == Piece::CutBy::Die) piece.cut = Piece::CutBy::Trimmer;
    piece.die = -1;
    std::erase_if(piece.windows, [](const Window& window) { return window.die >= 0; });
  }
  if (ready.stamped) piece.stamped.clear();
}

bool is_trimmer(const Project& project, ItemRef item) {
  return item.kind == ItemKind::Tool && item.index >= 0 &&
         as_index(item.index) < project.tools.size() &&
         project.tools[as_index(item.index)].cut_length > Length{};
}

} // namespace

PartsReady parts_ready(const Tier& tier, int card) {
  const bool comes = std::ranges::any_of(tier.includes, [card](const Inclusion& one) {
    return one.item.kind == ItemKind::Parts &&
           (one.cards.empty() || std::ranges::find(one.cards, card) != one.cards.end());
  });
  if (!comes || !tier.parts_cut) return {};
  return {true, tier.die_cut, tier.stamped};
}

bool cuts_with_a_die(const Project& project) {
  return std::ranges::any_of(project.cards, [](const Card& card) {
    return std::ranges::any_of(card.pieces, [](const Piece& piece) {
      return piece.cut == Piece::CutBy::Die ||
             std::ranges::any_of(piece.windows, [](const Window& one) { return one.die >= 0; });
    });
  });
}

Needs needs_beside_parts(const Project& project, const Tier& tier) {
  Project rest = project;
  for (std::size_t c = 0; c < rest.cards.size(); ++c) {
    const PartsReady ready = parts_ready(tier, static_cast<int>(c));
    for (Piece& piece : rest.cards[c].pieces) take_from(piece, ready);
  }
  Needs needs = needs_of_kit(rest);
  std::erase_if(needs, [&](const Need& need) {
    return is_trimmer(project, need.item) && !need.cards.empty() &&
           std::ranges::all_of(need.cards, [&](int card) { return parts_ready(tier, card).cut; });
  });
  return needs;
}

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
  for (const KitItem& taking : kit_contents_of(project, tier).kit_items) {
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
    job.objective = cut::Objective::SheetCount;
    for (std::size_t i = 0; i < lines.size(); ++i) {
      const CutLine& line = lines[i];
      if (line.stock != index) continue;
      const auto done = held.cut.find(static_cast<int>(i));
      const std::int64_t wanted = line.per_kit - (done == held.cut.end() ? 0 : done->second);
      const Piece& piece =
          project.cards.at(as_index(line.piece.card)).pieces.at(as_index(line.piece.piece));
      const SheetOrientation orientation = sheet_orientation(stock, piece);
      if (wanted <= 0 || !fits_a_sheet(stock, line.rectangle, orientation)) continue;
      const Size size =
          orientation == SheetOrientation::Turned ? line.rectangle.turned() : line.rectangle;
      job.pieces.push_back({line.letter, size.width.nm, size.height.nm, wanted,
                            orientation == SheetOrientation::Either});
    }
    if (job.pieces.empty()) continue;
    const Size whole = stock.sheets.front().size;
    for (const StockCut& piece : holding.pieces) add_sheet(job, piece.size, 0, piece.count);
    if (holding.sheets > 0) add_sheet(job, whole, 0, holding.sheets);
    add_sheet(job, whole, 1, std::nullopt);
    refine(job);
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
