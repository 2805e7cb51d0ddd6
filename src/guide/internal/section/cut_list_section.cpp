#include "guide/internal/section/chapters.h"

#include "guide/figure/scenes.h"
#include "guide/internal/prose/step_words.h"
#include "guide/prose.h"
#include "guide/sections.h"
#include "language/words.h"
#include "measure/index.h"
#include "model/form.h"

#include <algorithm>

namespace leafwright::guide {
namespace {

const Piece* known_piece(const Project& project, supply::PieceRef ref) {
  if (ref.card < 0 || as_index(ref.card) >= project.cards.size()) return nullptr;
  return piece_at(project.cards[as_index(ref.card)], ref.piece);
}

std::string score_words(const Project& project, const Card& card, const Piece& piece) {
  const std::vector<Score>& scores = scores_of(card, piece);
  std::vector<std::string> down, across;
  for (const Score& one : scores)
    (one.vertical ? down : across).push_back(length_text(one.at, project.printing));
  std::vector<std::string> out;
  if (!down.empty()) out.push_back(words::listed(down) + " from the left");
  if (!across.empty()) out.push_back(words::listed(across) + " from the top");
  return out.empty() ? std::string() : "Score at " + words::listed(out);
}

// What follows the trimmer: a die, scissors, a score.
std::string then_words(const Project& project, const Card& card, const Piece& piece) {
  std::vector<std::string> out;
  const std::string size = piece_size_words(project, piece.shape, piece.size);
  if (piece.cut == Piece::CutBy::Die) out.push_back(item_name(project, {ItemKind::Die, piece.die}));
  if (piece.cut == Piece::CutBy::Punch) out.push_back("Punch " + size);
  if (piece.cut == Piece::CutBy::Scissors) out.push_back("Scissors, to " + size);
  for (const Window& window : piece.windows)
    out.push_back("Window " + piece_size_words(project, window.shape, window.size));
  // For one card the diagram beside the list says it.
  if (std::string score = score_words(project, card, piece);
      project.cards.size() > 1 && !score.empty())
    out.push_back(std::move(score));
  std::string joined;
  for (const std::string& one : out) joined += (joined.empty() ? "" : "; ") + one;
  return joined;
}

Row line_row(const Project& project, const supply::CutLine& line, const Piece& piece) {
  const Card& card = project.cards[as_index(line.piece.card)];
  Row row;
  row.cells.push_back(Inlines{TickBox{}});
  row.cells.push_back(line.letter.empty() ? Inlines{} : Inlines{PieceLetter{line.letter}});
  Inlines name = plain(words::sentence_case(piece_noun(piece)));
  if (const std::string then = then_words(project, card, piece); !then.empty())
    name.emplace_back(Words{". " + then + ".", Words::Style::Quiet});
  row.cells.push_back(std::move(name));
  if (project.cards.size() > 1) row.cells.push_back(plain(std::to_string(line.piece.card + 1)));
  row.cells.push_back(plain(std::to_string(line.per_kit)));
  row.cells.push_back(plain(size_text(line.rectangle, project.printing)));
  if (project.printing.print_other)
    row.cells.push_back(plain(other_size_text(line.rectangle, project.printing)));
  return row;
}

} // namespace

Table cut_list_table(const Project& project, const supply::CuttingPlan& sheets) {
  const bool several = project.cards.size() > 1;
  const bool inch = project.printing.unit == Unit::Inch;
  Table table;
  table.caption = "Pieces of one kit, by paper";
  table.columns.push_back({{}, Column::Align::Left, 0.0, false});
  table.columns.push_back({{}, Column::Align::Centre, 0.3, false});
  table.columns.push_back({plain("Piece"), Column::Align::Left, 2.0, true});
  if (several) table.columns.push_back({plain("Card"), Column::Align::Centre, 0.4, false});
  table.columns.push_back({plain("Cut"), Column::Align::Right, 0.4, false});
  table.columns.push_back({plain("Size"), Column::Align::Left, 1.2, false});
  if (project.printing.print_other)
    table.columns.push_back({plain(inch ? "In mm" : "In inches"), Column::Align::Left, 1.2, false});
  for (std::size_t stock = 0; stock < project.stocks.size(); ++stock) {
    bool headed = false;
    for (const supply::CutLine& line : sheets.lines) {
      const Piece* piece = known_piece(project, line.piece);
      if (line.stock != static_cast<int>(stock) || !piece) continue;
      if (!headed) {
        const ItemRef item{ItemKind::Stock, static_cast<int>(stock)};
        table.rows.push_back({Row::Kind::Group, {plain(listed_item(project, item))}});
        headed = true;
      }
      table.rows.push_back(line_row(project, line, *piece));
    }
  }
  return table;
}

Section cut_list_section(const Project& project, const supply::CuttingPlan& sheets) {
  Section section{"cut-list", "What to cut", {}};
  add(section, heading(1, "cut-list", "What to cut"));
  std::string words =
      "All the pieces for " + makes_words(project) +
      ", width first. For a piece that a die or scissors will shape, cut the rectangle given here.";
  add(section, lead(plain(words)));
  add(section, cut_list_table(project, sheets));
  return section;
}

namespace {

std::string sheet_name(const Project& project, const supply::SheetLayout& layout) {
  const auto& stock = project.stocks.at(as_index(layout.stock));
  if (layout.offer < 0 || as_index(layout.offer) >= stock.sheets.size())
    return size_text(layout.sheet, project.printing, true);
  return sheet_words(project, stock.sheets[as_index(layout.offer)]);
}

std::string layout_words(const supply::SheetLayout& layout, bool only) {
  if (layout.times > 1)
    return words::sentence_case(words::counted(layout.times, "sheet")) + " cut like this.";
  return only ? "One sheet is enough." : "One sheet cut like this.";
}

Beside layout_block(const Project& project, const supply::CuttingPlan& sheets,
                    const supply::SheetLayout& layout, bool only) {
  Beside beside;
  beside.figure = {figure::sheet(project, sheets, layout), {}, Figure::Width::Half};
  beside.title = item_name(project, {ItemKind::Stock, layout.stock});
  beside.blocks.push_back({body(plain(layout_words(layout, only))), {}});
  List order = cutting_order(project, sheets, layout);
  if (!order.items.empty()) {
    beside.blocks.push_back({std::move(order), {}});
  }
  return beside;
}

std::string aside_words(const Project& project, const supply::StockSheets& stock) {
  std::string words = words::figured(stock.sheets, "sheet");
  const bool alike = std::all_of(stock.layouts.begin(), stock.layouts.end(), [&](const auto& one) {
    return one.offer == stock.layouts.front().offer;
  });
  if (!stock.layouts.empty() && alike) words += ", " + sheet_name(project, stock.layouts.front());
  return words;
}

} // namespace

Section cut_diagrams_section(const Project& project, const supply::CuttingPlan& sheets,
                             bool from_pieces) {
  Section section{"cut-diagrams", "How to cut it", {}};
  add(section, heading(1, "cut-diagrams", "How to cut it"));
  add(section,
      lead(plain("Every sheet for one kit, to scale, with its cuts in order. Measure from the top "
                 "or left edge of the drawing. The numbers are in the drawing, and the letters "
                 "match the cut list.")));
  if (from_pieces)
    add(section, body(plain("The drawings are for whole sheets. Did part of a sheet come with your "
                            "kit? Cut as many of the same pieces from it as will fit, and then "
                            "start a sheet of your own.")));
  add(section,
      Notice{Notice::Kind::Caution, "At the blade.",
             plain("Hold the sheet with the guard or a ruler, and keep your fingers away from the "
                   "track. Don't let anyone reach across while you cut.")});
  for (const supply::StockSheets& stock : sheets.stocks) {
    if (stock.layouts.empty()) continue;
    const ItemRef item{ItemKind::Stock, stock.stock};
    const Place place = project.stocks.at(as_index(stock.stock)).place;
    add(section,
        heading(2, "cut-" + item_id(project, item), item_name(project, item), {},
                aside_words(project, stock)),
        place);
    for (const supply::SheetLayout& layout : stock.layouts)
      add(section, layout_block(project, sheets, layout, stock.sheets == 1), place);
    if (stock.at_least == stock.sheets && stock.sheets > 1)
      add(section,
          small(plain(words::sentence_case(words::counted(stock.sheets, "sheet")) +
                      ": straight cuts cannot make these pieces from fewer.")),
          place);
  }
  return section;
}

} // namespace leafwright::guide
