#include "guide/figure/internal/alternative.h"
#include "guide/figure/internal/scene_parts.h"
#include "guide/figure/scenes.h"
#include "language/words.h"
#include "measure/index.h"
#include "model/form.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>
#include <set>
#include <utility>

namespace leafwright::figure {

namespace {

struct SheetPiece {
  int index = -1; // of CuttingPlan::pieces
  Rect box;
  bool turned = false;
  const Piece* piece = nullptr; // nullptr: a share of a sheet, of no card; the first of several
  supply::PieceRef ref{};       // where that is
  std::string name;             // empty where several letters are cut alike
  std::string letters;
  bool one_shape = true; // of all that are cut alike
  std::vector<Score> scores;
};

bool several(const std::string& letters) { return letters.find(' ') != std::string::npos; }

std::string numbers(Size size, const Printing& printing) {
  return number_text(size.width, printing) + "\u00A0×\u00A0" + number_text(size.height, printing);
}

class SheetMaker {
 public:
  SheetMaker(const Project& project, const supply::CuttingPlan& plan,
             const supply::SheetLayout& layout)
      : project_(project), layout_(layout), whole_{{}, layout.sheet} {
    for (const supply::Placed& placed : layout.pieces) pieces_.push_back(piece_of(plan, placed));
  }

  Scene make() {
    const Stock* stock = nullptr;
    if (layout_.stock >= 0 && layout_.stock < static_cast<int>(project_.stocks.size()))
      stock = &project_.stocks.at(as_index(layout_.stock));
    static const Stock plain;
    draw(stock != nullptr ? *stock : plain);
    cuts();
    chains();
    labels();
    scene_.box = grown(whole_, micrometres(600));
    scene_.scale_group = "sheet";
    alternative();
    return std::move(scene_);
  }

 private:
  SheetPiece piece_of(const supply::CuttingPlan& plan, const supply::Placed& placed) const {
    const supply::CutPiece& cut = at(plan.pieces, placed.piece);
    SheetPiece out{placed.piece, placed.box, placed.turned,
                   nullptr,      {},         {},
                   cut.letters,  true,       common_scores(project_, plan, cut)};
    for (const int line : cut.lines) {
      const supply::PieceRef ref = at(plan.lines, line).piece;
      if (ref.card < 0) continue;
      const Piece& piece = supply::piece_of(project_, ref);
      if (out.piece == nullptr) {
        out.piece = &piece;
        out.ref = ref;
      } else {
        out.one_shape = out.one_shape && out.piece->die >= 0 && out.piece->die == piece.die;
      }
    }
    if (out.piece == nullptr)
      out.name = "share of a sheet";
    else if (!several(cut.letters))
      out.name = piece_name(*out.piece);
    return out;
  }

  // Slivers are waste: nobody keeps or measures them.
  bool worth_keeping(Rect rest) const { return supply::worth_keeping(project_, rest.size); }

  void draw(const Stock& stock) {
    scene_.items.emplace_back(SceneMark{"sheet", stock.id, whole_});
    fill(scene_.items, rectangle(whole_), {255, 255, 255});
    draw_waste(scene_.items, whole_, millimetres(4));
    PaperStyle style;
    style.shadow = false;
    style.pattern_strength = 0.55;
    for (const Rect& rest : layout_.leftovers) {
      if (!worth_keeping(rest)) continue;
      const Colour pale = mixed(stock.colour, {255, 255, 255}, 0.72);
      fill(scene_.items, rectangle(rest), pale);
      drawn_stroke(scene_.items, rectangle(rest), line_ink, points(0.4), 0.8,
                   {micrometres(1200), micrometres(700)});
    }
    const SheetPiece* largest = nullptr;
    for (const SheetPiece& piece : pieces_) {
      begin_thing(scene_.items, {Build::Kind::Piece, piece.ref.piece}, std::max(piece.ref.card, 0));
      draw_sheet(scene_.items, stock, rectangle({{}, piece.box.size}), {{}, piece.box.size},
                 shifted(piece.box.origin), style);
      drawn_stroke(scene_.items, rectangle(piece.box), line_ink, points(0.8));
      scene_.items.emplace_back(
          SceneMark{"cut", piece.piece ? piece.piece->id : piece.letters, piece.box});
      shape_inside(piece);
      scores(piece);
      end_thing(scene_.items);
      if (largest == nullptr || area(piece.box.size) > area(largest->box.size)) largest = &piece;
    }
    drawn_stroke(scene_.items, rectangle(whole_), line_ink, points(0.9));
    if (stock.upright && stock.pattern != Stock::Pattern::Plain && largest != nullptr) {
      const Rect box = largest->box;
      const Rect strip{{box.right() - box.size.width / 5, box.top()},
                       {box.size.width / 5, box.size.height}};
      draw_direction_arrow(scene_.items, strip, false, line_ink);
      const Point c = strip.centre();
      const Length half = std::min(strip.size.height / 4, millimetres(8));
      scene_.keep_clear.push_back({{c.x - millimetres(3), c.y - half}, {millimetres(6), half * 2}});
    }
  }

  // What a die or scissors will take out of the rectangle.
  void shape_inside(const SheetPiece& placed) {
    if (placed.piece == nullptr || !placed.one_shape) return;
    const Piece& piece = *placed.piece;
    if (piece.shape.outline == Shape::Outline::Rectangle) return;
    const Point c = placed.box.centre();
    const Point at{c.x - piece.size.width / 2, c.y - piece.size.height / 2};
    const Frame frame = lying_on(Frame{}, at, piece.size, placed.turned ? degrees(90) : Angle{});
    drawn_stroke(scene_.items, figure::placed(frame, piece_edge(piece)), line_ink, points(0.4), 0.8,
                 {micrometres(900), micrometres(600)});
  }

  void scores(const SheetPiece& placed) {
    for (const Score& score : placed.scores) {
      const bool vertical = score.vertical != placed.turned;
      // Turned clockwise: what was its top is now its right.
      const Length at =
          placed.turned && !score.vertical ? placed.box.size.width - score.at : score.at;
      const Point from = vertical ? Point{placed.box.left() + at, placed.box.top()}
                                  : Point{placed.box.left(), placed.box.top() + at};
      const Point to =
          vertical ? Point{from.x, placed.box.bottom()} : Point{placed.box.right(), from.y};
      draw_score_line(scene_.items, from, to, score.mountain, line_ink);
      scene_.keep_clear.push_back(clear_of_line(from, to));
    }
  }

  // The number of each cut in a ring on its line, near where the blade starts.
  void cuts() {
    for (const supply::SheetLayout::Move& move : layout_.moves) {
      const Point from = move.across ? Point{move.from.left(), move.from.top() + move.at}
                                     : Point{move.from.left() + move.at, move.from.top()};
      const Size along =
          move.across ? Size{move.from.size.width, {}} : Size{{}, move.from.size.height};
      const Length in = millimetres(10);
      Badge badge{fmt::format("{}", move.number),
                  from + Point{move.across ? in : Length{}, move.across ? Length{} : in},
                  {from, along}};
      badge.kind = Badge::Kind::Number;
      scene_.badges.push_back(std::move(badge));
    }
  }

  // Dimension chains along the edges; the far edge only where it differs.
  void chains() {
    using Sides = std::set<std::pair<std::int64_t, std::int64_t>>;
    // What is cut and what is kept along one edge; nobody measures what falls off between them.
    const auto sides = [&](bool vertical, bool far) {
      Sides at;
      const auto add = [&](const Rect& rect) {
        const Length edge = vertical ? (far ? rect.right() - whole_.right() : rect.left())
                                     : (far ? rect.bottom() - whole_.bottom() : rect.top());
        if (absolute(edge) > millimetres(1)) return;
        at.emplace(vertical ? rect.top().nm : rect.left().nm,
                   vertical ? rect.bottom().nm : rect.right().nm);
      };
      for (const SheetPiece& piece : pieces_) add(piece.box);
      for (const Rect& rest : layout_.leftovers)
        if (worth_keeping(rest)) add(rest);
      return at;
    };
    const auto chain = [&](const Sides& at, bool vertical, bool far, int rank) {
      for (const auto& [from, to] : at) {
        const Length a{from};
        const Length b{to};
        if (b - a < millimetres(1)) continue;
        Dimension part;
        const Length side =
            vertical ? (far ? whole_.right() : Length{}) : (far ? whole_.bottom() : Length{});
        part.from = vertical ? Point{side, a} : Point{a, side};
        part.to = vertical ? Point{side, b} : Point{b, side};
        part.words = number_text(b - a, project_.printing);
        using enum Dimension::Side;
        part.side = vertical ? (far ? Right : Left) : (far ? Below : Above);
        part.rank = rank;
        part.from_of = part.to_of = whole_;
        scene_.dimensions.push_back(std::move(part));
      }
    };
    for (const bool vertical : {false, true}) {
      const Sides whole{{0, (vertical ? whole_.size.height : whole_.size.width).nm}};
      const Sides near = sides(vertical, false);
      const Sides far = sides(vertical, true);
      if (near != whole) chain(near, vertical, false, 0);
      if (far != near && far != whole) chain(far, vertical, true, 0);
      chain(whole, vertical, false, near == whole ? 0 : 1);
    }
  }

  void labels() {
    std::set<int> named;
    for (const SheetPiece& placed : pieces_) {
      Label label{{}, placed.box};
      label.brief = true;
      if (several(placed.letters))
        label.lines = {placed.letters};
      else
        label.letter = placed.letters;
      if (named.insert(placed.index).second) {
        std::string size =
            numbers(placed.turned ? placed.box.size.turned() : placed.box.size, project_.printing);
        std::vector<std::string> at;
        at.reserve(placed.scores.size());
        for (const Score& score : placed.scores)
          at.push_back(number_text(score.at, project_.printing));
        if (!at.empty()) size += ", score at " + words::listed(at);
        if (!placed.name.empty()) label.lines.push_back(placed.name);
        label.lines.push_back(std::move(size));
      }
      const bool dark = luminance(stock_colour()) < 0.40;
      label.plate = dark || patterned() || several(placed.letters) || placed.piece == nullptr;
      scene_.labels.push_back(std::move(label));
    }
    for (const Rect& rest : layout_.leftovers) {
      if (!worth_keeping(rest)) continue;
      Label label{{"left over", numbers(rest.size, project_.printing)}, rest};
      label.rank = 2;
      label.brief = true;
      scene_.labels.push_back(std::move(label));
    }
  }

  Colour stock_colour() const {
    if (layout_.stock < 0) return {255, 255, 255};
    return project_.stocks.at(as_index(layout_.stock)).colour;
  }
  bool patterned() const {
    return layout_.stock >= 0 &&
           project_.stocks.at(as_index(layout_.stock)).pattern != Stock::Pattern::Plain;
  }

  void alternative() {
    std::vector<std::string> parts;
    std::set<int> said;
    for (const SheetPiece& placed : pieces_) {
      if (!said.insert(placed.index).second) continue;
      const auto count =
          std::count_if(pieces_.begin(), pieces_.end(),
                        [&](const SheetPiece& other) { return other.index == placed.index; });
      const Size size = placed.turned ? placed.box.size.turned() : placed.box.size;
      parts.push_back(fmt::format("{} × {} ({}) {}", count,
                                  placed.name.empty() ? "pieces" : placed.name,
                                  placed.letters.empty() ? "no letter" : placed.letters,
                                  size_text(size, project_.printing)));
    }
    scene_.alternative =
        fmt::format("Cutting diagram of a sheet of {}, {}: {}", stock_name(project_, layout_.stock),
                    size_text(layout_.sheet, project_.printing),
                    parts.empty() ? "nothing to cut" : words::listed(parts));
    std::vector<std::string> rests;
    rests.reserve(layout_.leftovers.size());
    for (const Rect& rest : layout_.leftovers)
      if (worth_keeping(rest)) rests.push_back(size_text(rest.size, project_.printing));
    if (!rests.empty()) scene_.alternative += "; left over: " + words::listed(rests);
    scene_.alternative = sentence(scene_.alternative);
  }

  const Project& project_;
  const supply::SheetLayout& layout_;
  Rect whole_;
  std::vector<SheetPiece> pieces_;
  Scene scene_;
};

} // namespace

std::vector<Score> common_scores(const Project& project, const supply::CuttingPlan& plan,
                                 const supply::CutPiece& piece) {
  const std::vector<Score>* common = nullptr;
  for (const int line : piece.lines) {
    const supply::PieceRef ref = at(plan.lines, line).piece;
    if (ref.card < 0) continue;
    const std::vector<Score>& scores =
        scores_of(at(project.cards, ref.card), supply::piece_of(project, ref));
    if (common != nullptr && *common != scores) return {};
    common = &scores;
  }
  return common != nullptr ? *common : std::vector<Score>{};
}

Scene sheet(const Project& project, const supply::CuttingPlan& plan,
            const supply::SheetLayout& layout) {
  return SheetMaker(project, plan, layout).make();
}

} // namespace leafwright::figure
