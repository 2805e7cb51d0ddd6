#include "guide/shop/naming.h"
#include "guide/shop/shop.h"
#include "measure/index.h"
#include "records/csv.h"
#include "records/json.h"
#include "records/numbers.h"

#include <algorithm>

namespace leafwright::guide {

namespace {

using records::csv_row;
using records::Json;
using records::millimetre_text;

using supply::RunPattern;
using supply::RunSheets;
using supply::RunStock;

void write_box(Json& json, const Rect& box) {
  json.key("x").decimal(millimetre_text(box.left()));
  json.key("y").decimal(millimetre_text(box.top()));
  json.key("width").decimal(millimetre_text(box.size.width));
  json.key("height").decimal(millimetre_text(box.size.height));
}

void write_pattern(Json& json, const Project& project, const RunSheets& sheets,
                   const RunPattern& pattern) {
  json.open_object();
  json.key("sheets").number(pattern.layout.times);
  json.key("sheet").text(
      pattern.offcut ? "offcut" : sheet_name(project, pattern.layout.stock, pattern.layout.offer));
  json.key("width").decimal(millimetre_text(pattern.layout.sheet.width));
  json.key("height").decimal(millimetre_text(pattern.layout.sheet.height));
  json.key("pieces").open_array();
  for (const supply::Placed& placed : pattern.layout.pieces) {
    json.open_object();
    json.key("letters").text(sheets.pieces.at(as_index(placed.line)).letters);
    write_box(json, placed.box);
    json.key("turned").truth(placed.turned);
    json.close_object();
  }
  json.close_array();
  json.key("left_over").open_array();
  for (const Rect& rest : pattern.layout.leftovers) {
    json.open_object();
    write_box(json, rest);
    json.close_object();
  }
  json.close_array();
  json.key("cuts").open_array();
  for (const supply::Round& round : pattern.work.rounds)
    for (const supply::Setting& setting : round.settings) {
      json.open_object();
      json.key("number").number(setting.number);
      json.key("fence").decimal(millimetre_text(setting.fence));
      json.key("along").text(round.across ? "width" : "height");
      json.key("cuts_a_part").number(setting.cuts);
      json.key("parts").number(round.parts);
      json.key("stack").number(round.stack);
      json.close_object();
    }
  json.close_array();
  json.close_object();
}

void write_stock(Json& json, const Project& project, const RunSheets& sheets,
                 const RunStock& stock) {
  json.open_object();
  json.key("stock").text(item_id(project, {ItemKind::Stock, stock.stock}));
  json.key("sheets").number(stock.all_sheets);
  json.key("offcuts_used").number(stock.offcuts);
  json.key("at_least");
  if (stock.at_least > 0)
    json.number(stock.at_least);
  else
    json.nothing();
  json.key("proven").truth(stock.proven);
  json.key("words").text(stock.words);
  json.key("used_mm2").number(stock.used.um2 / 1'000'000);
  json.key("waste_mm2").number(stock.waste.um2 / 1'000'000);
  json.key("patterns").open_array();
  for (const RunPattern& pattern : stock.patterns) write_pattern(json, project, sheets, pattern);
  json.close_array();
  json.close_object();
}

} // namespace

std::string cutting_plan_json(const Project& project, const supply::Buying& buying) {
  const RunSheets& sheets = buying.sheets;
  Json json;
  json.open_object();
  json.key("schema").text("cutting-plan/1");
  json.key("project").text(project.id);
  json.key("edition").number(project.edition);
  json.key("kits").open_object();
  for (std::size_t i = 0; i < buying.kits.size() && i < project.tiers.size(); ++i)
    json.key(project.tiers[i].id).number(buying.kits[i]);
  json.close_object();
  json.key("pieces").open_array();
  for (const supply::RunPiece& piece : sheets.pieces) {
    json.open_object();
    json.key("letters").text(piece.letters);
    json.key("stock").text(item_id(project, {ItemKind::Stock, piece.stock}));
    json.key("names").open_array();
    for (const std::string& name : piece_names(project, sheets, piece)) json.text(name);
    json.close_array();
    json.key("width").decimal(millimetre_text(piece.size.width));
    json.key("height").decimal(millimetre_text(piece.size.height));
    json.key("may_turn").truth(piece.lie == supply::Lie::Either);
    json.key("wanted").number(piece.wanted);
    json.key("spare").number(piece.spare);
    json.close_object();
  }
  json.close_array();
  json.key("stocks").open_array();
  for (const RunStock& stock : sheets.stocks) write_stock(json, project, sheets, stock);
  json.close_array();
  json.close_object();
  return json.take();
}

std::string cutting_plan_csv(const Project& project, const supply::Buying& buying) {
  std::string csv =
      csv_row({"stock", "pattern", "sheets", "sheet", "sheet_width_mm", "sheet_height_mm",
               "letters", "x_mm", "y_mm", "width_mm", "height_mm", "turned"});
  for (const RunStock& stock : buying.sheets.stocks) {
    int number = 0;
    for (const RunPattern& pattern : stock.patterns) {
      ++number;
      for (const supply::Placed& placed : pattern.layout.pieces)
        csv += csv_row(
            {item_id(project, {ItemKind::Stock, stock.stock}), std::to_string(number),
             std::to_string(pattern.layout.times),
             pattern.offcut ? "offcut" : sheet_name(project, stock.stock, pattern.layout.offer),
             millimetre_text(pattern.layout.sheet.width),
             millimetre_text(pattern.layout.sheet.height),
             buying.sheets.pieces.at(as_index(placed.line)).letters,
             millimetre_text(placed.box.left()), millimetre_text(placed.box.top()),
             millimetre_text(placed.box.size.width), millimetre_text(placed.box.size.height),
             placed.turned ? "yes" : "no"});
    }
  }
  return csv;
}

} // namespace leafwright::guide
