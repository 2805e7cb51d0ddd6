#include "guide/shop/shop.h"
#include "measure/index.h"
#include "model/scores.h"

#include <fmt/format.h>

#include <string>
#include <utility>

namespace leafwright::guide {

namespace {

using figure::CutLines;

// A score of a piece that lies in `box`, by a quarter turn clockwise when `turned`.
void add_score(CutLines& lines, const Score& score, Rect box, bool turned) {
  const bool upright = score.vertical != turned;
  const Length along = turned && !score.vertical ? box.size.width - score.at : score.at;
  const CutLines::Line line =
      upright ? CutLines::Line{{box.left() + along, box.top()}, {box.left() + along, box.bottom()}}
              : CutLines::Line{{box.left(), box.top() + along}, {box.right(), box.top() + along}};
  lines.scores.push_back({line, score.mountain});
}

TrueSizeFile pattern_file(const Project& project, const supply::RunSheets& sheets,
                          const supply::RunPattern& pattern, const std::string& stock, int number) {
  const std::string name = fmt::format("{}-{}", stock, number);
  CutLines lines;
  lines.size = pattern.layout.sheet;
  lines.title = fmt::format("{}: {} sheets of {}", project.title, pattern.layout.times, name);
  lines.edge = true;
  for (const supply::SheetLayout::Move& move : pattern.layout.moves) {
    const Rect& from = move.from;
    if (move.across)
      lines.cuts.push_back(
          {{from.left(), from.top() + move.at}, {from.right(), from.top() + move.at}});
    else
      lines.cuts.push_back(
          {{from.left() + move.at, from.top()}, {from.left() + move.at, from.bottom()}});
  }
  for (const supply::Placed& placed : pattern.layout.pieces) {
    const supply::RunPiece& piece = sheets.pieces.at(as_index(placed.line));
    // Pieces of one size may be scored differently: what all of them share is drawn, nothing else.
    const std::vector<Score>* common = nullptr;
    bool alike = true;
    for (const int index : piece.lines) {
      const supply::PieceRef ref = sheets.lines.at(as_index(index)).piece;
      if (ref.card < 0) continue;
      const Card& card = project.cards.at(as_index(ref.card));
      const auto& scores = scores_of(card, card.pieces.at(as_index(ref.piece)));
      alike = alike && (!common || *common == scores);
      common = &scores;
    }
    if (common && alike)
      for (const Score& score : *common) add_score(lines, score, placed.box, placed.turned);
  }
  return {name + ".svg", std::move(lines)};
}

} // namespace

std::vector<TrueSizeFile> true_size_patterns(const Project& project,
                                             const supply::RunSheets& sheets) {
  std::vector<TrueSizeFile> files;
  for (const supply::RunStock& stock : sheets.stocks) {
    int number = 0;
    for (const supply::RunPattern& pattern : stock.patterns)
      files.push_back(pattern_file(project, sheets, pattern,
                                   item_id(project, {ItemKind::Stock, stock.stock}), ++number));
  }
  return files;
}

std::vector<TrueSizeFile> true_size_shapes(const Project& project) {
  std::vector<TrueSizeFile> files;
  for (const Die& die : project.dies) {
    CutLines lines;
    lines.size = die.size;
    lines.title = die.name;
    lines.outlines.push_back(outline_path(die.shape, die.size));
    files.push_back({"die-" + die.id + ".svg", std::move(lines)});
  }
  for (const Card& card : project.cards) {
    for (const Piece& piece : card.pieces) {
      const bool base = piece.role == Piece::Role::Base;
      const bool shaped = piece.shape.outline != Shape::Outline::Rectangle;
      if (!base && (!shaped || piece.die >= 0)) continue;
      CutLines lines;
      lines.size = piece.size;
      lines.title = card.title + ": " + (piece.name.empty() ? piece.id : piece.name);
      lines.outlines.push_back(outline_path(shaped ? piece.shape : Shape{}, piece.size));
      for (const Window& window : piece.windows)
        lines.outlines.push_back(moved(outline_path(window.shape, window.size), window.at));
      for (const Score& score : scores_of(card, piece))
        add_score(lines, score, {{}, piece.size}, false);
      files.push_back({(base ? "net-" + card.id : "shape-" + card.id + "-" + piece.id) + ".svg",
                       std::move(lines)});
    }
  }
  return files;
}

} // namespace leafwright::guide
