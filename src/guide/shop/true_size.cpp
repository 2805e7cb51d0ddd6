#include "guide/shop/shop.h"
#include "model/scores.h"
#include "records/numbers.h"
#include "text/xml_text.h"

#include <fmt/format.h>

#include <string_view>
#include <utility>

namespace leafwright::guide {

namespace {

using records::millimetre_text;

std::string at(Point point) { return millimetre_text(point.x) + " " + millimetre_text(point.y); }

std::string path_data(const Path& path) {
  std::string d;
  for (const Segment& segment : path) {
    if (!d.empty()) d += ' ';
    switch (segment.kind) {
    case Segment::Kind::Move: d += "M " + at(segment.end); break;
    case Segment::Kind::Line: d += "L " + at(segment.end); break;
    case Segment::Kind::Curve:
      d += "C " + at(segment.control1) + " " + at(segment.control2) + " " + at(segment.end);
      break;
    case Segment::Kind::Close: d += "Z"; break;
    }
  }
  return d;
}

// A drawing of cuts and scores; each group is a layer that a cutting machine can be told to follow.
class TrueSize {
 public:
  TrueSize(Size size, std::string title) : size_(size), title_(std::move(title)) {}

  void cut(const Path& path) { cut_ += line(path, ""); }
  void cut(Point from, Point to) { cut_ += straight(from, to, ""); }
  void score(Point from, Point to, bool mountain) {
    score_ += straight(from, to, mountain ? " class=\"mountain\"" : " class=\"valley\"");
  }

  std::string svg() const {
    const std::string w = millimetre_text(size_.width), h = millimetre_text(size_.height);
    std::string out = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n";
    out += fmt::format("<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"{0}mm\" "
                       "height=\"{1}mm\" viewBox=\"0 0 {0} {1}\">\n  <title>{2}</title>\n",
                       w, h, text::xml_text(title_));
    if (sheet_)
      out +=
          fmt::format("  <g id=\"sheet\" fill=\"none\" stroke=\"#999999\" stroke-width=\"0.1\">\n"
                      "    <rect x=\"0\" y=\"0\" width=\"{}\" height=\"{}\"/>\n  </g>\n",
                      w, h);
    if (!cut_.empty())
      out += "  <g id=\"cut\" fill=\"none\" stroke=\"#000000\" stroke-width=\"0.1\">\n" + cut_ +
             "  </g>\n";
    if (!score_.empty())
      out += "  <g id=\"score\" fill=\"none\" stroke=\"#0000ff\" stroke-width=\"0.1\" "
             "stroke-dasharray=\"3 1\">\n" +
             score_ + "  </g>\n";
    return out + "</svg>\n";
  }
  void with_sheet() { sheet_ = true; }

 private:
  static std::string line(const Path& path, std::string_view more) {
    return fmt::format("    <path{} d=\"{}\"/>\n", more, path_data(path));
  }
  static std::string straight(Point from, Point to, std::string_view more) {
    return fmt::format("    <line{} x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\"/>\n", more,
                       millimetre_text(from.x), millimetre_text(from.y), millimetre_text(to.x),
                       millimetre_text(to.y));
  }

  Size size_;
  std::string title_, cut_, score_;
  bool sheet_ = false;
};

// A score of a piece that lies in `box`, by a quarter turn clockwise when `turned`.
void add_score(TrueSize& drawing, const Score& score, Rect box, bool turned) {
  const bool upright = score.vertical != turned;
  const Length along = turned && !score.vertical ? box.size.width - score.at : score.at;
  if (upright)
    drawing.score({box.left() + along, box.top()}, {box.left() + along, box.bottom()},
                  score.mountain);
  else
    drawing.score({box.left(), box.top() + along}, {box.right(), box.top() + along},
                  score.mountain);
}

TrueSizeFile pattern_file(const Project& project, const supply::RunSheets& sheets,
                          const supply::RunPattern& pattern, const std::string& stock, int number) {
  const std::string name = fmt::format("{}-{}", stock, number);
  TrueSize drawing(pattern.layout.sheet,
                   fmt::format("{}: {} sheets of {}", project.title, pattern.layout.times, name));
  drawing.with_sheet();
  for (const supply::SheetLayout::Move& move : pattern.layout.moves) {
    const Rect& from = move.from;
    if (move.across)
      drawing.cut({from.left(), from.top() + move.at}, {from.right(), from.top() + move.at});
    else
      drawing.cut({from.left() + move.at, from.top()}, {from.left() + move.at, from.bottom()});
  }
  for (const supply::Placed& placed : pattern.layout.pieces) {
    const supply::RunPiece& piece = sheets.pieces.at(static_cast<std::size_t>(placed.line));
    // Pieces of one size may be scored differently: what all of them share is drawn, nothing else.
    const std::vector<Score>* common = nullptr;
    bool alike = true;
    for (const int index : piece.lines) {
      const supply::PieceRef ref = sheets.lines.at(static_cast<std::size_t>(index)).piece;
      if (ref.card < 0) continue;
      const Card& card = project.cards.at(static_cast<std::size_t>(ref.card));
      const auto& scores = scores_of(card, card.pieces.at(static_cast<std::size_t>(ref.piece)));
      alike = alike && (!common || *common == scores);
      common = &scores;
    }
    if (common && alike)
      for (const Score& score : *common) add_score(drawing, score, placed.box, placed.turned);
  }
  return {name + ".svg", drawing.svg()};
}

Path rectangle(Size size) { return outline_path(Shape{}, size); }

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
    TrueSize drawing(die.size, die.name);
    drawing.cut(outline_path(die.shape, die.size));
    files.push_back({"die-" + die.id + ".svg", drawing.svg()});
  }
  for (const Card& card : project.cards) {
    for (const Piece& piece : card.pieces) {
      const bool base = piece.role == Piece::Role::Base;
      const bool shaped = piece.shape.outline != Shape::Outline::Rectangle;
      if (!base && (!shaped || piece.die >= 0)) continue;
      const std::string title = card.title + ": " + (piece.name.empty() ? piece.id : piece.name);
      TrueSize drawing(piece.size, title);
      drawing.cut(shaped ? outline_path(piece.shape, piece.size) : rectangle(piece.size));
      for (const Window& window : piece.windows)
        drawing.cut(moved(outline_path(window.shape, window.size), window.at));
      for (const Score& score : scores_of(card, piece))
        add_score(drawing, score, {{}, piece.size}, false);
      files.push_back({(base ? "net-" + card.id : "shape-" + card.id + "-" + piece.id) + ".svg",
                       drawing.svg()});
    }
  }
  return files;
}

} // namespace leafwright::guide
