#include "measure/index.h"
#include "plan/supply/lie.h"
#include "plan/supply/sheets.h"

#include <algorithm>

namespace leafwright::supply {

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
      line.may_turn = lie_of(stock, piece) == Lie::Either;
      line.per_card = line.per_set = std::max(piece.copies, 1);
      line.per_kit = line.per_set * std::max(project.run.of_each, 0);
      lines.push_back(std::move(line));
    }
  }
  return lines;
}

} // namespace leafwright::supply
