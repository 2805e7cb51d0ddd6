#include "guide/sections.h"
#include "guide/shop/shop.h"
#include "guide/shop/shop_words.h"
#include "measure/index.h"
#include "records/records.h"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>

namespace leafwright::guide {

namespace {

using records::amount_text;
using records::csv_row;
using records::Json;
using records::millimetre_text;

using supply::Buying;
using supply::BuyingLine;
using supply::Purchase;

std::string_view unit_word(BuyingLine::CountedIn unit) {
  switch (unit) {
  case BuyingLine::CountedIn::Sheets: return "sheet";
  case BuyingLine::CountedIn::Spools: return "spool";
  case BuyingLine::CountedIn::Pieces: return "piece";
  case BuyingLine::CountedIn::Rolls: return "roll";
  case BuyingLine::CountedIn::Things: break;
  }
  return "thing";
}

std::string sheet_of(const Project& project, const BuyingLine& line) {
  return line.item.kind == ItemKind::Stock ? sheet_name(project, line.item.index, line.offer)
                                           : std::string();
}

void write_line(Json& json, const Project& project, const BuyingLine& line) {
  json.open_object();
  json.key("item").text(item_id(project, line.item));
  json.key("name").text(item_name(project, line.item));
  json.key("group").text(supply::group_words(line.group));
  if (line.item.kind == ItemKind::Stock) json.key("sheet").text(sheet_of(project, line));
  json.key("unit").text(unit_word(line.unit));
  json.key("needed").number(line.needed);
  json.key("in_hand").number(line.in_hand);
  json.key("bought").number(line.bought);
  json.key("left_over").number(line.left);
  if (line.length > Length{}) json.key("length_mm").decimal(millimetre_text(line.length));
  if (line.mass > Mass{}) json.key("mass_mg").number(line.mass.mg);
  if (!line.offcuts_left.empty()) {
    json.key("offcuts").open_array();
    for (const BuyingLine::Offcut& offcut : line.offcuts_left) {
      json.open_object();
      json.key("width").decimal(millimetre_text(offcut.size.width));
      json.key("height").decimal(millimetre_text(offcut.size.height));
      json.key("count").number(offcut.count);
      json.close_object();
    }
    json.close_array();
  }
  if (line.spools) {
    json.key("spools").open_array();
    for (const spool::Reel& reel : line.spools->reels) {
      json.open_object();
      json.key("times").number(reel.times);
      json.key("rest_in_hand").truth(reel.rest >= 0);
      json.key("cuts").open_array();
      for (const spool::Cut& cut : reel.cuts) {
        json.open_object();
        json.key("length").decimal(millimetre_text(cut.length));
        json.key("count").number(cut.count);
        json.close_object();
      }
      json.close_array();
      json.key("left_over").decimal(millimetre_text(reel.left));
      json.close_object();
    }
    json.close_array();
    json.key("spools_at_least").number(line.spools->at_least);
    json.key("spools_proven").truth(line.spools->proven);
  }
  json.close_object();
}

void write_purchase(Json& json, const Project& project, const Purchase& purchase) {
  json.open_object();
  json.key("item").text(item_id(project, purchase.item));
  json.key("name").text(item_name(project, purchase.item));
  if (purchase.offer >= 0)
    json.key("sheet").text(sheet_name(project, purchase.item.index, purchase.offer));
  json.key("packs").number(purchase.packs);
  json.key("per_pack").number(purchase.per_pack);
  json.key("price");
  if (purchase.price)
    json.number(purchase.price->minor);
  else
    json.nothing();
  json.key("cost").number(purchase.cost.minor);
  json.close_object();
}

} // namespace

std::string buying_list_json(const Project& project, const Buying& buying) {
  Json json;
  json.open_object();
  json.key("schema").text("buying-list/1");
  json.key("project").text(project.id);
  json.key("edition").number(project.edition);
  json.key("currency").text(project.currency.code);
  json.key("kits").open_object();
  for (std::size_t i = 0; i < buying.kits.size() && i < project.tiers.size(); ++i)
    json.key(project.tiers[i].id).number(buying.kits[i]);
  json.close_object();
  json.key("lines").open_array();
  for (const BuyingLine& line : buying.lines) write_line(json, project, line);
  json.close_array();
  json.key("purchases").open_array();
  for (const Purchase& purchase : buying.purchases) write_purchase(json, project, purchase);
  json.close_array();
  json.key("total").number(buying.total.minor);
  json.key("all_priced").truth(buying.unpriced.empty());
  json.key("least_cost").truth(buying.least_cost);
  json.close_object();
  return json.take();
}

// First what is needed, then a row for each kind of pack bought, so that the cost column adds up.
std::string buying_list_csv(const Project& project, const Buying& buying) {
  std::string csv =
      csv_row({"row", "group", "item", "name", "sheet", "unit", "needed", "in_hand", "bought",
               "left_over", "packs", "per_pack", "price", "cost", "currency"});
  for (const BuyingLine& line : buying.lines)
    csv += csv_row({"need", std::string(supply::group_words(line.group)),
                    item_id(project, line.item), item_name(project, line.item),
                    sheet_of(project, line), std::string(unit_word(line.unit)),
                    std::to_string(line.needed), std::to_string(line.in_hand),
                    std::to_string(line.bought), std::to_string(line.left), "", "", "", "", ""});
  for (const Purchase& one : buying.purchases)
    csv += csv_row({"buy", std::string(supply::group_words(supply::group_of(project, one.item))),
                    item_id(project, one.item), item_name(project, one.item),
                    one.offer >= 0 ? sheet_name(project, one.item.index, one.offer) : "", "", "",
                    "", "", "", std::to_string(one.packs), std::to_string(one.per_pack),
                    one.price ? amount_text(*one.price) : "", amount_text(one.cost),
                    project.currency.code});
  return csv;
}

namespace {

using records::csv_row;
using records::Json;
using records::millimetre_text;

using supply::CuttingPlan;
using supply::SheetLayout;
using supply::StockSheets;

void write_box(Json& json, const Rect& box) {
  json.key("x").decimal(millimetre_text(box.left()));
  json.key("y").decimal(millimetre_text(box.top()));
  json.key("width").decimal(millimetre_text(box.size.width));
  json.key("height").decimal(millimetre_text(box.size.height));
}

void write_pattern(Json& json, const Project& project, const CuttingPlan& sheets,
                   const SheetLayout& pattern) {
  json.open_object();
  json.key("sheets").number(pattern.times);
  json.key("sheet").text(pattern.offcut() ? "offcut"
                                          : sheet_name(project, pattern.stock, pattern.offer));
  json.key("width").decimal(millimetre_text(pattern.sheet.width));
  json.key("height").decimal(millimetre_text(pattern.sheet.height));
  json.key("pieces").open_array();
  for (const supply::Placed& placed : pattern.pieces) {
    json.open_object();
    json.key("letters").text(sheets.pieces.at(as_index(placed.piece)).letters);
    write_box(json, placed.box);
    json.key("turned").truth(placed.turned);
    json.close_object();
  }
  json.close_array();
  json.key("left_over").open_array();
  for (const Rect& rest : pattern.leftovers) {
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

void write_stock(Json& json, const Project& project, const CuttingPlan& sheets,
                 const StockSheets& stock) {
  json.open_object();
  json.key("stock").text(item_id(project, {ItemKind::Stock, stock.stock}));
  json.key("sheets").number(stock.sheets);
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
  for (const SheetLayout& pattern : stock.layouts) write_pattern(json, project, sheets, pattern);
  json.close_array();
  json.close_object();
}

} // namespace

namespace {

std::string_view lie_word(supply::SheetOrientation orientation) {
  switch (orientation) {
  case supply::SheetOrientation::Upright: return "upright";
  case supply::SheetOrientation::Turned: return "turned";
  case supply::SheetOrientation::Either: break;
  }
  return "either";
}

} // namespace

std::string cutting_plan_json(const Project& project, const supply::Buying& buying) {
  const CuttingPlan& sheets = buying.sheets;
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
  for (const supply::CutPiece& piece : sheets.pieces) {
    json.open_object();
    json.key("letters").text(piece.letters);
    json.key("stock").text(item_id(project, {ItemKind::Stock, piece.stock}));
    json.key("names").open_array();
    for (const std::string& name : piece_names(project, sheets, piece)) json.text(name);
    json.close_array();
    json.key("width").decimal(millimetre_text(piece.size.width));
    json.key("height").decimal(millimetre_text(piece.size.height));
    json.key("may_turn").truth(piece.orientation == supply::SheetOrientation::Either);
    json.key("lies").text(lie_word(piece.orientation));
    json.key("wanted").number(piece.wanted);
    json.key("spare").number(piece.spare);
    json.close_object();
  }
  json.close_array();
  json.key("stocks").open_array();
  for (const StockSheets& stock : sheets.stocks) write_stock(json, project, sheets, stock);
  json.close_array();
  json.close_object();
  return json.take();
}

std::string cutting_plan_csv(const Project& project, const supply::Buying& buying) {
  std::string csv =
      csv_row({"stock", "pattern", "sheets", "sheet", "sheet_width_mm", "sheet_height_mm",
               "letters", "x_mm", "y_mm", "width_mm", "height_mm", "turned"});
  for (const StockSheets& stock : buying.sheets.stocks) {
    int number = 0;
    for (const SheetLayout& pattern : stock.layouts) {
      ++number;
      for (const supply::Placed& placed : pattern.pieces)
        csv +=
            csv_row({item_id(project, {ItemKind::Stock, stock.stock}), std::to_string(number),
                     std::to_string(pattern.times),
                     pattern.offcut() ? "offcut" : sheet_name(project, stock.stock, pattern.offer),
                     millimetre_text(pattern.sheet.width), millimetre_text(pattern.sheet.height),
                     buying.sheets.pieces.at(as_index(placed.piece)).letters,
                     millimetre_text(placed.box.left()), millimetre_text(placed.box.top()),
                     millimetre_text(placed.box.size.width),
                     millimetre_text(placed.box.size.height), placed.turned ? "yes" : "no"});
    }
  }
  return csv;
}

} // namespace leafwright::guide
