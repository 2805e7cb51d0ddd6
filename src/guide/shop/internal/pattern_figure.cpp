#include "guide/shop/pattern_figure.h"

#include "guide/figure/frame.h"
#include "guide/figure/paint.h"
#include "guide/figure/scenes.h"
#include "guide/shop/shop.h"
#include "language/words.h"
#include "measure/index.h"
#include "model/form.h"

#include <fmt/format.h>

#include <limits>
#include <string>
#include <utility>

namespace leafwright::guide {
namespace {

constexpr Colour line_ink{38, 36, 33};

std::string numbers(Size size, const Printing& printing) {
  return number_text(size.width, printing) + "\u00A0×\u00A0" + number_text(size.height, printing);
}

// Pieces of one size that several cards share carry all their letters.
void write_letters(figure::Scene& scene, Rect box, const std::string& letters) {
  for (figure::Label& label : scene.labels) {
    if (label.within != box || label.letter.empty()) continue;
    label.letter.clear();
    if (label.lines.size() > 1)
      label.lines.front() = letters; // in place of the one card's name
    else
      label.lines.insert(label.lines.begin(), letters);
    label.plate = true;
  }
}

// On a sheet of many pieces the letter and the size are enough: the table above has the names.
constexpr std::size_t named_pieces = 5;
void drop_names(figure::Scene& scene) {
  for (figure::Label& label : scene.labels)
    if (!label.letter.empty() && label.lines.size() > 1) label.lines.erase(label.lines.begin());
}

// A share of a sheet belongs to no card: it is drawn and named here.
void draw_share(figure::Scene& scene, const Project& project, int stock,
                const supply::Placed& placed, const supply::RunPiece& piece) {
  const Stock& paper = project.stocks.at(as_index(stock));
  figure::PaperStyle style;
  style.shadow = false;
  style.pattern_strength = 0.55;
  const Rect own{{}, placed.box.size};
  figure::draw_sheet(scene.items, paper, figure::rectangle(own), own,
                     figure::shifted(placed.box.origin), style);
  figure::drawn_stroke(scene.items, figure::rectangle(placed.box), line_ink, points(0.8));
  scene.items.emplace_back(figure::SceneMark{"cut", piece.letters, placed.box});
  figure::Label label;
  label.lines = {"share of a sheet", numbers(placed.box.size, project.printing)};
  label.within = placed.box;
  label.letter = piece.letters;
  label.plate = true;
  scene.labels.push_back(std::move(label));
}

} // namespace

figure::Scene pattern_scene(const Project& project, const supply::RunSheets& sheets,
                            const supply::RunPattern& pattern) {
  supply::SheetLayout layout = pattern.layout;
  for (supply::Placed& placed : layout.pieces) {
    const supply::RunPiece& piece = sheets.pieces.at(as_index(placed.line));
    const int line = piece.lines.front();
    const bool of_card = sheets.lines.at(as_index(line)).piece.card >= 0;
    placed.line = of_card ? line : std::numeric_limits<int>::max();
  }
  figure::Scene scene = figure::sheet(project, layout);
  // Each as large as it can be read beside its order, two papers to a page: a pattern of many
  // narrow strips must not make the plain ones small.
  scene.scale_group.clear();
  scene.largest_scale = 0.28;
  if (layout.pieces.size() > named_pieces) drop_names(scene);
  for (std::size_t i = 0; i < layout.pieces.size(); ++i) {
    const supply::Placed& placed = pattern.layout.pieces[i];
    const supply::RunPiece& piece = sheets.pieces.at(as_index(placed.line));
    if (layout.pieces[i].line == std::numeric_limits<int>::max())
      draw_share(scene, project, layout.stock, placed, piece);
    else if (piece.letters.find(' ') != std::string::npos)
      write_letters(scene, placed.box, piece.letters);
  }
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

TrueSizeFile pattern_file(const Project& project, const supply::RunSheets& sheets,
                          const supply::RunPattern& pattern, const std::string& stock, int number) {
  const std::string name = fmt::format("{}-{}", stock, number);
  CutLines lines;
  lines.size = pattern.layout.sheet;
  lines.title =
      fmt::format("{}: {} of {}", project.title,
                  words::figured(pattern.layout.times, pattern.offcut ? "offcut" : "sheet"), name);
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
