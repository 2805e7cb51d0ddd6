#include "guide/section/amounts.h"
#include "guide/shop/naming.h"
#include "guide/shop/shop.h"
#include "records/csv.h"
#include "records/json.h"
#include "records/numbers.h"

#include <fmt/format.h>

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

std::string_view unit_word(BuyingLine::Unit unit) {
  switch (unit) {
  case BuyingLine::Unit::Sheets: return "sheet";
  case BuyingLine::Unit::Spools: return "spool";
  case BuyingLine::Unit::Pieces: return "piece";
  case BuyingLine::Unit::Rolls: return "roll";
  case BuyingLine::Unit::Things: break;
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

} // namespace leafwright::guide
