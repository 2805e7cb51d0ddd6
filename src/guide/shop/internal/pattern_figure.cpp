#include "guide/shop/pattern_figure.h"

#include "guide/figure/scenes.h"
#include "guide/shop/shop.h"
#include "language/words.h"
#include "measure/index.h"
#include "model/form.h"
#include "model/pop_up.h"

#include <fmt/format.h>

#include <string>
#include <utility>

namespace leafwright::guide {
namespace {

// On a sheet of many pieces the letter and the size are enough: the table above has the names.
constexpr std::size_t named_pieces = 5;
void drop_names(figure::Scene& scene) {
  for (figure::Label& label : scene.labels)
    if (!label.letter.empty() && label.lines.size() > 1) label.lines.erase(label.lines.begin());
}

} // namespace

figure::Scene pattern_scene(const Project& project, const supply::CuttingPlan& sheets,
                            const supply::SheetLayout& pattern) {
  figure::Scene scene = figure::sheet(project, sheets, pattern);
  // Each as large as it can be read beside its order, three to a page: a pattern of many narrow
  // strips must not make the plain ones small.
  constexpr std::size_t many = 24;
  scene.scale_group.clear();
  scene.largest_scale = pattern.pieces.size() < many ? 0.2 : 0.28;
  if (pattern.pieces.size() > named_pieces) drop_names(scene);
  return scene;
}

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

// The slits of the boxes that stand up, and the scores between them.
void add_pop_ups(CutLines& lines, const Card& card) {
  for (const PopUp& pop_up : card.pop_ups) {
    const Rect cut = pop_up_cut(card, pop_up), front = pop_up_front(card, pop_up);
    for (const Length x : {cut.left(), cut.right()})
      lines.cuts.push_back({{x, cut.top()}, {x, cut.bottom()}});
    for (const Length y : {cut.top(), front.top(), cut.bottom()})
      lines.scores.push_back({{{cut.left(), y}, {cut.right(), y}}, y == front.top()});
  }
}

TrueSizeFile pattern_file(const Project& project, const supply::CuttingPlan& sheets,
                          const supply::SheetLayout& pattern, const std::string& stock,
                          int number) {
  const std::string name = fmt::format("{}-{}", stock, number);
  CutLines lines;
  lines.size = pattern.sheet;
  lines.title =
      fmt::format("{}: {} of {}", project.title,
                  words::figured(pattern.times, pattern.offcut() ? "offcut" : "sheet"), name);
  lines.edge = true;
  for (const supply::SheetLayout::Move& move : pattern.moves) {
    const Rect& from = move.from;
    if (move.across)
      lines.cuts.push_back(
          {{from.left(), from.top() + move.at}, {from.right(), from.top() + move.at}});
    else
      lines.cuts.push_back(
          {{from.left() + move.at, from.top()}, {from.left() + move.at, from.bottom()}});
  }
  for (const supply::Placed& placed : pattern.pieces) {
    const supply::CutPiece& piece = at(sheets.pieces, placed.piece);
    for (const Score& score : figure::common_scores(project, sheets, piece))
      add_score(lines, score, placed.box, placed.turned);
  }
  return {name + ".svg", std::move(lines)};
}

} // namespace

std::vector<TrueSizeFile> true_size_patterns(const Project& project,
                                             const supply::CuttingPlan& sheets) {
  std::vector<TrueSizeFile> files;
  for (const supply::StockSheets& stock : sheets.stocks) {
    int number = 0;
    for (const supply::SheetLayout& pattern : stock.layouts)
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
      if (base) add_pop_ups(lines, card);
      files.push_back({(base ? "net-" + card.id : "shape-" + card.id + "-" + piece.id) + ".svg",
                       std::move(lines)});
    }
  }
  return files;
}

} // namespace leafwright::guide
