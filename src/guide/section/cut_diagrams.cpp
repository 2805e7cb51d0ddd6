#include "guide/section/cut_diagrams.h"

#include "guide/figure/scenes.h"
#include "guide/prose/naming.h"
#include "guide/section/amounts.h"
#include "guide/section/blocks.h"
#include "guide/words/count.h"
#include "guide/words/letter_case.h"
#include "guide/words/list.h"
#include "measure/index.h"
#include "model/scores.h"

#include <algorithm>

namespace leafwright::guide {
namespace {

std::string sheet_name(const Project& project, const supply::SheetLayout& layout) {
  const auto& stock = project.stocks.at(as_index(layout.stock));
  if (layout.offer < 0 || as_index(layout.offer) >= stock.sheets.size())
    return size_text(layout.sheet, project.printing, true);
  return sheet_words(project, stock.sheets[as_index(layout.offer)]);
}

// "Two sheets like this one." and what is worth keeping of them.
Inlines layout_words(const Project& project, const supply::SheetLayout& layout, bool only) {
  Prose prose;
  if (layout.times > 1) {
    prose.say(words::sentence_case(words::counted(layout.times, "sheet")) +
              " cut like this, stacked as far as your trimmer allows.");
  } else {
    prose.say(only ? "One sheet is enough." : "One sheet cut like this.");
  }
  std::vector<std::string> kept;
  for (const Rect& left : layout.leftovers)
    if (supply::worth_keeping(project, left.size) && kept.size() < 3)
      kept.push_back(size_text(left.size, project.printing, true));
  if (!kept.empty())
    prose.say(" Keep what is left over" + std::string(layout.times > 1 ? " of each: " : ": ") +
              words::listed(kept) + ".");
  return prose.fragment();
}

// Bases are scored while they are still flat and square to the board.
Inlines scoring_words(const Project& project, const supply::KitSheets& sheets,
                      const supply::SheetLayout& layout) {
  Prose prose;
  std::vector<int> said;
  for (const supply::Placed& placed : layout.pieces) {
    if (placed.line < 0 || as_index(placed.line) >= sheets.lines.size()) continue;
    if (std::find(said.begin(), said.end(), placed.line) != said.end()) continue;
    said.push_back(placed.line);
    const supply::CutLine& line = sheets.lines[as_index(placed.line)];
    const Card& card = project.cards.at(as_index(line.piece.card));
    const Piece* piece = piece_at(card, line.piece.piece);
    if (!piece || piece->role != Piece::Role::Base) continue;
    std::vector<std::string> at;
    const auto& scores = scores_of(card, *piece);
    at.reserve(scores.size());
    for (const Score& one : scores) at.push_back(length_text(one.at, project.printing));
    if (at.empty()) continue;
    prose.say(prose.empty() ? "Score " : "; score ");
    prose.append(Inlines{PieceLetter{line.letter}});
    prose.say(" at " + words::listed(at) +
              (scores.front().vertical ? " from its left edge" : " from its top edge"));
  }
  if (!prose.empty()) prose.say(".");
  return prose.fragment();
}

Beside layout_block(const Project& project, const supply::KitSheets& sheets,
                    const supply::SheetLayout& layout, bool only) {
  Beside beside;
  beside.figure = {figure::sheet(project, layout), {}, Figure::Width::Half};
  beside.blocks.push_back({body(layout_words(project, layout, only)), {}});
  List order = cutting_order(project, sheets, layout);
  Inlines scoring = scoring_words(project, sheets, layout);
  if (!scoring.empty()) order.items.push_back(std::move(scoring));
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

Section cut_diagrams_section(const Project& project, const supply::KitSheets& sheets,
                             bool from_pieces) {
  Section section{"cut-diagrams", "How to cut it", {}};
  add(section, heading(1, "cut-diagrams", "How to cut it"));
  add(section,
      lead(plain("Every sheet for one kit, drawn to scale, with the settings of the fence "
                 "in the order that needs fewest. Across is along the width of the drawing, "
                 "down along its height; the letters are those of the cut list.")));
  if (from_pieces)
    add(section, body(plain("The drawings are for whole sheets. Where a piece of a sheet came with "
                            "your kit, lay as many of the same parts on it as it holds, before you "
                            "begin a sheet of your own.")));
  add(section,
      Notice{Notice::Kind::Caution, "At the blade.",
             plain("Hold the sheet with the guard or a ruler, never with fingers beside the "
                   "track, and let no one reach across while you cut.")});
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
