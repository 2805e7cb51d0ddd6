#include "measure/index.h"
#include "plan/supply/lie.h"
#include "plan/supply/said.h"
#include "plan/supply/sheets.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <utility>

namespace leafwright::supply {

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
  const std::string size = said(rectangle, project.printing);
  Finding finding;
  finding.code = "fit-sheet";
  finding.place = piece.size_place.line > 0 ? piece.size_place : piece.place;
  const std::optional<Size> sheet = largest_sheet(stock);
  if (!sheet) {
    finding.found = fmt::format("{} of “{}” is cut from {}, which has no sheet", called(piece),
                                card.title, stock.name);
    finding.expected = fmt::format("a sheet of at least {}", size);
    finding.mend = fmt::format("say in what sheets {} is sold", stock.name);
    return finding;
  }
  finding.found = fmt::format("{} of “{}”, {}, fits on no sheet of {}", called(piece), card.title,
                              size, stock.name);
  finding.expected = fmt::format("at most {}, the largest sheet{}", said(*sheet, project.printing),
                                 stock.upright ? ", with its pattern upright" : "");
  const bool turned_would_do = fits_a_sheet(stock, rectangle, Lie::Either);
  finding.mend =
      turned_would_do
          ? fmt::format("make it at most {} or, if its pattern has no top after all, leave out "
                        "that it is upright",
                        said(*sheet, project.printing))
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
    if (!fits_a_sheet(stock, line.rectangle, lie_of(stock, piece)))
      findings.push_back(without_sheet(project, card, piece, stock));
  }
  return findings;
}

} // namespace leafwright::supply
