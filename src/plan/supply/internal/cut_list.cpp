#include "plan/supply/sheets.h"

#include "measure/index.h"
#include "measure/print_length.h"
#include "plan/supply/needs.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <utility>

namespace leafwright::supply {

SheetOrientation wished_orientation(const Stock& stock, const Piece& piece) {
  if (stock.upright) return SheetOrientation::Upright;
  if (stock.grain == Stock::Grain::Unknown || piece.scores.empty()) return SheetOrientation::Either;
  const bool vertical = piece.scores.front().vertical;
  const bool one_way =
      std::all_of(piece.scores.begin(), piece.scores.end(),
                  [vertical](const Score& score) { return score.vertical == vertical; });
  if (!one_way) return SheetOrientation::Either;
  const bool along_height = stock.grain == Stock::Grain::AlongHeight;
  return vertical == along_height ? SheetOrientation::Upright : SheetOrientation::Turned;
}

bool fits_a_sheet(const Stock& stock, Size rectangle, SheetOrientation orientation) {
  return std::any_of(stock.sheets.begin(), stock.sheets.end(), [&](const SheetOffer& offer) {
    return (orientation != SheetOrientation::Turned && fits(rectangle, offer.size)) ||
           (orientation != SheetOrientation::Upright && fits(rectangle.turned(), offer.size));
  });
}

SheetOrientation sheet_orientation(const Stock& stock, const Piece& piece) {
  const SheetOrientation wished = wished_orientation(stock, piece);
  if (stock.upright || fits_a_sheet(stock, rectangle_of(piece), wished)) return wished;
  return SheetOrientation::Either;
}

Size rectangle_of(const Piece& piece) {
  return piece.cut_from == Size{} ? piece.size : piece.cut_from;
}

bool worth_keeping(const Project& project, Size rest) {
  const Length least =
      project.printing.unit == leafwright::Unit::Inch ? inches(2) : millimetres(50);
  return rest.width >= least && rest.height >= least;
}

void add_sheets(Needs& needs, const CuttingPlan& layout) {
  for (Need& need : needs) {
    if (need.item.kind != ItemKind::Stock) continue;
    const auto found =
        std::find_if(layout.stocks.begin(), layout.stocks.end(),
                     [&](const StockSheets& stock) { return stock.stock == need.item.index; });
    if (found != layout.stocks.end()) need.sheets = found->sheets;
  }
}

std::vector<CutLine> cut_list(const Project& project) {
  std::vector<CutLine> lines;
  for (std::size_t c = 0; c < project.cards.size(); ++c) {
    const std::vector<Piece>& pieces = project.cards[c].pieces;
    for (std::size_t p = 0; p < pieces.size(); ++p) {
      const Piece& piece = pieces[p];
      if (piece.stock < 0 || as_index(piece.stock) >= project.stocks.size()) continue;
      const Stock& stock = project.stocks[as_index(piece.stock)];
      CutLine line;
      line.piece = {static_cast<int>(c), static_cast<int>(p)};
      line.letter = piece.letter;
      line.stock = piece.stock;
      line.rectangle = rectangle_of(piece);
      line.may_turn = sheet_orientation(stock, piece) == SheetOrientation::Either;
      line.per_card = line.per_set = std::max(piece.copies, 1);
      line.per_kit = line.per_set * std::max(project.run.of_each, 0);
      lines.push_back(std::move(line));
    }
  }
  return lines;
}

namespace {

std::string called(const Piece& piece) { return piece.name.empty() ? piece.id : piece.name; }

// The sheet that comes nearest: the one of largest area.
std::optional<Size> largest_sheet(const Stock& stock) {
  const auto largest = std::max_element(
      stock.sheets.begin(), stock.sheets.end(),
      [](const SheetOffer& a, const SheetOffer& b) { return area(a.size) < area(b.size); });
  return largest == stock.sheets.end() ? std::nullopt : std::optional(largest->size);
}

Finding without_sheet(const Project& project, const Card& card, const Piece& piece,
                      const Stock& stock) {
  const Size rectangle = rectangle_of(piece);
  const std::string size = unrounded(rectangle, project.printing);
  Finding finding;
  finding.code = "fit-sheet";
  finding.place = piece.size_place.line > 0 ? piece.size_place : piece.place;
  const std::optional<Size> sheet = largest_sheet(stock);
  if (!sheet) {
    finding.found = fmt::format("{} of “{}” is cut from {}, which has no sheet", called(piece),
                                card.title, stock.name);
    finding.expected = fmt::format("a sheet of at least {}", size);
    finding.fix = fmt::format("say in what sheets {} is sold", stock.name);
    return finding;
  }
  finding.found = fmt::format("{} of “{}”, {}, fits on no sheet of {}", called(piece), card.title,
                              size, stock.name);
  finding.expected =
      fmt::format("at most {}, the largest sheet{}", unrounded(*sheet, project.printing),
                  stock.upright ? ", with its pattern upright" : "");
  const bool turned_would_do = fits_a_sheet(stock, rectangle, SheetOrientation::Either);
  finding.fix =
      turned_would_do
          ? fmt::format("make it at most {} or, if its pattern has no top after all, leave out "
                        "that it is upright",
                        unrounded(*sheet, project.printing))
          : fmt::format("make it smaller, or add a sheet of at least {} to {}", size, stock.name);
  return finding;
}

} // namespace

Findings pieces_without_sheet(const Project& project) {
  Findings findings;
  for (const CutLine& line : cut_list(project)) {
    const Card& card = project.cards.at(as_index(line.piece.card));
    const Piece& piece = card.pieces.at(as_index(line.piece.piece));
    const Stock& stock = project.stocks.at(as_index(line.stock));
    if (!fits_a_sheet(stock, line.rectangle, sheet_orientation(stock, piece)))
      findings.push_back(without_sheet(project, card, piece, stock));
  }
  return findings;
}

} // namespace leafwright::supply
