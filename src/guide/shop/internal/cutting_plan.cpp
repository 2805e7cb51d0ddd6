#include "guide/prose.h"
#include "guide/sections.h"
#include "guide/shop/pattern_figure.h"
#include "guide/shop/shop.h"
#include "guide/shop/shop_words.h"
#include "language/words.h"
#include "measure/index.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace leafwright::guide {
namespace {

using supply::CuttingPlan;
using supply::SheetLayout;
using supply::StockSheets;

std::string stock_anchor(const Project& project, int stock) {
  return "run-" + item_id(project, {ItemKind::Stock, stock});
}

// "12 letter and 1 offcut"
std::string sheets_words(const Project& project, const StockSheets& stock) {
  std::vector<std::string> parts;
  for (const StockSheets::OfSize& one : stock.by_size) {
    const std::string name = sheet_name(project, stock.stock, one.offer);
    const bool measured = !name.empty() && name.front() >= '0' && name.front() <= '9';
    parts.push_back(std::to_string(one.count) + (measured ? " of " : "\u00A0") + name);
  }
  if (stock.offcuts > 0) parts.push_back(words::figured(stock.offcuts, "offcut"));
  return words::listed(parts);
}

std::int64_t strokes_of(const StockSheets& stock) {
  std::int64_t strokes = 0;
  for (const SheetLayout& pattern : stock.layouts) strokes += pattern.work.strokes;
  return strokes;
}

Table summary_table(const Project& project, const CuttingPlan& sheets) {
  Table table;
  table.caption = "Sheets, pieces and cuts by paper";
  table.columns = {{plain("Paper"), Column::Align::Left, 2.2, true},
                   {plain("Sheets"), Column::Align::Left, 1.6, false},
                   {plain("Patterns"), Column::Align::Right, 0.6, false},
                   {plain("Pieces"), Column::Align::Right, 0.6, false},
                   {plain("Cuts"), Column::Align::Right, 0.6, false},
                   {plain("Waste"), Column::Align::Right, 0.6, false}};
  std::int64_t all_sheets = 0, offcuts = 0, patterns = 0, pieces = 0, strokes = 0;
  Area used{}, waste{};
  for (const StockSheets& stock : sheets.stocks) {
    Row row;
    row.cells = {plain(item_name(project, {ItemKind::Stock, stock.stock})),
                 plain(sheets_words(project, stock)),
                 plain(std::to_string(stock.layouts.size())),
                 plain(std::to_string(stock.pieces)),
                 plain(std::to_string(strokes_of(stock))),
                 plain(percent_words(stock.waste, stock.used + stock.waste))};
    table.rows.push_back(std::move(row));
    all_sheets += stock.sheets;
    offcuts += stock.offcuts;
    patterns += static_cast<std::int64_t>(stock.layouts.size());
    pieces += stock.pieces;
    strokes += strokes_of(stock);
    used += stock.used;
    waste += stock.waste;
  }
  std::string all = words::figured(all_sheets, "sheet");
  if (offcuts > 0) all += " and " + words::figured(offcuts, "offcut");
  Row total{Row::Kind::Total, {}};
  total.cells = {plain("All"),
                 plain(all),
                 plain(std::to_string(patterns)),
                 plain(std::to_string(pieces)),
                 plain(std::to_string(strokes)),
                 plain(percent_words(waste, used + waste))};
  table.rows.push_back(std::move(total));
  return table;
}

std::string spare_words(const Run& run) {
  std::vector<std::string> parts;
  if (run.spare_percent > 0) parts.push_back(std::to_string(run.spare_percent) + "\u00A0%");
  if (run.spare_pieces > 0)
    parts.push_back(words::counted(run.spare_pieces, "piece") + " of each size");
  if (parts.empty()) return "No spare pieces are cut.";
  return "Against miscuts, " + words::listed(parts) + " more than promised are cut.";
}

Section summary_section(const Project& project, const supply::Buying& buying) {
  Section section{"cutting-summary", "Cutting plan", {}};
  add(section, heading(1, "cutting-summary", "Cutting plan"));
  const std::string kits = kits_words(project, buying.kits);
  Prose prose;
  prose.say(kits.empty() ? "No kits are ordered, so nothing is cut. " : "For " + kits + ". ");
  prose.say(spare_words(project.run));
  add(section, lead(prose.fragment()));
  add_findings(section, buying.sheets.findings);
  if (buying.sheets.stocks.empty()) return section;
  add(section, summary_table(project, buying.sheets));
  add(section,
      small(plain(
          "A cut is one pass of the blade, through one sheet or a stack. Pieces of one size from "
          "one paper are cut together, whichever card they go to, and counted out "
          "afterwards. Waste is what is neither piece nor spare piece; some of it is "
          "worth keeping.")));
  add(section, heading(3, {}, "How to work from this plan"));
  List how;
  how.items = {
      plain("Each drawing is one sheet, with its cuts numbered. The table beside it has the same "
            "numbers: set the trimmer once, make all cuts of that number, tick it off, go on. "
            "“The rest” is what the last cut left in your hand."),
      plain(
          "Each setting is measured from the left or top edge of the drawing, and is the piece you "
          "keep. Begin with the edge that is named in the drawing, and turn the paper, not the "
          "trimmer."),
      plain("Cut one sheet first and lay its pieces on the drawing before you cut the stack."),
      plain("Score after cutting. Put each letter in an envelope of its own.")};
  add(section, std::move(how));
  add(section,
      Notice{Notice::Kind::Caution, "At the blade.",
             plain("Hold the stack with the guard or a ruler, and keep your fingers away from the "
                   "track. If the lowest sheet creeps, cut fewer at once.")});
  return section;
}

Table pieces_table(const Project& project, const CuttingPlan& sheets, int stock) {
  const bool spare = project.run.spare_percent > 0 || project.run.spare_pieces > 0;
  Table table;
  table.caption = "Pieces of this paper";
  table.columns = {{{}, Column::Align::Left, 0.5, false},
                   {plain("Piece"), Column::Align::Left, 3.0, true},
                   {plain("Size"), Column::Align::Left, 1.2, false},
                   {plain("For kits"), Column::Align::Right, 0.6, false}};
  if (spare) table.columns.push_back({plain("Spare"), Column::Align::Right, 0.5, false});
  if (spare) table.columns.push_back({plain("Cut"), Column::Align::Right, 0.5, false});
  for (const supply::CutPiece& piece : sheets.pieces) {
    if (piece.stock != stock) continue;
    Row row;
    row.cells = {letter_dots(piece),
                 plain(words::sentence_case(words::listed(piece_names(project, sheets, piece)))),
                 plain(size_text(piece.size, project.printing, true)),
                 plain(std::to_string(piece.wanted))};
    if (spare) row.cells.push_back(plain(std::to_string(piece.spare)));
    if (spare) row.cells.push_back(plain(std::to_string(piece.wanted + piece.spare)));
    table.rows.push_back(std::move(row));
  }
  return table;
}

// "Pattern 2: 12 sheets"
std::string pattern_title(const Project& project, const SheetLayout& pattern, std::size_t index,
                          std::size_t of) {
  const std::string count = words::figured(pattern.times, pattern.offcut() ? "offcut" : "sheet");
  const std::string size = pattern.offcut() ? size_text(pattern.sheet, project.printing, true)
                                            : sheet_name(project, pattern.stock, pattern.offer);
  const std::string name = of > 1 ? fmt::format("Pattern {}: ", index + 1) : std::string();
  return name + count + ", " + size;
}

Beside pattern_block(const Project& project, const CuttingPlan& sheets, const SheetLayout& pattern,
                     std::size_t index, std::size_t of) {
  Beside beside;
  beside.figure = {pattern_scene(project, sheets, pattern), {}, Figure::Width::Half};
  beside.blocks.push_back({heading(3, {}, pattern_title(project, pattern, index, of)), {}});
  if (pattern.work.rounds.empty())
    beside.blocks.push_back({body(plain("Nothing is cut: the sheet is the piece.")), {}});
  else
    beside.blocks.push_back({cutting_table(project, sheets, pattern), {}});
  Ticks after;
  after.columns = 1;
  after.items = after_cutting(project, sheets, pattern);
  if (!after.items.empty()) beside.blocks.push_back({std::move(after), {}});
  return beside;
}

Section stock_section(const Project& project, const CuttingPlan& sheets, const StockSheets& stock) {
  const std::string name = item_name(project, {ItemKind::Stock, stock.stock});
  const Place place = project.stocks.at(as_index(stock.stock)).place;
  Section section{"cutting-patterns", name, {}};
  add(section,
      heading(1, stock_anchor(project, stock.stock), name, {}, sheets_words(project, stock)),
      place);
  add(section, body(plain(words::sentence_case(stock.words) + ".")), place);
  add(section, pieces_table(project, sheets, stock.stock), place);
  for (std::size_t i = 0; i < stock.layouts.size(); ++i)
    add(section, pattern_block(project, sheets, stock.layouts[i], i, stock.layouts.size()), place);
  return section;
}

} // namespace

Document cutting_plan(const Project& project, const supply::Buying& buying,
                      const ShopOptions& options) {
  Document document = shop_document(project, "cutting plan", options.draft);
  document.sections.push_back(summary_section(project, buying));
  for (const StockSheets& stock : buying.sheets.stocks)
    document.sections.push_back(stock_section(project, buying.sheets, stock));
  return document;
}

} // namespace leafwright::guide
