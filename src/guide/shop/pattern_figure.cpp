#include "guide/shop/pattern_figure.h"

#include "guide/figure/frame.h"
#include "guide/figure/paint.h"
#include "guide/figure/scenes.h"
#include "measure/index.h"

#include <limits>
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

} // namespace leafwright::guide
