#include "guide/business/business.h"
#include "guide/business/money_chart.h"
#include "measure/index.h"
#include "plan/tier/value.h"
#include "records/csv.h"
#include "records/json.h"
#include "records/numbers.h"

#include <fmt/format.h>

namespace leafwright::guide {

namespace {

using records::amount_text;
using records::csv_row;
using records::Json;

using tiers::TierAccount;

std::string id_of(const Project& project, int tier) {
  return tier < 0 ? std::string("all") : project.tiers.at(as_index(tier)).id;
}

void write_account(Json& json, const Project& project, const TierAccount& one) {
  json.open_object();
  json.key("tier").text(id_of(project, one.tier));
  json.key("orders").number(one.orders);
  json.key("kits").number(one.kits);
  json.key("price").number(one.price.minor);
  json.key("charged").number(one.charged.minor);
  json.key("goods").number(one.goods.minor);
  json.key("fees").number(one.fees.minor);
  json.key("postage").number(one.postage.minor);
  json.key("packing").number(one.packing.minor);
  json.key("margin").number(one.margin.minor);
  json.close_object();
}

} // namespace

// A row for each tier, the total, what was paid once, and the scenarios, of which only the planned
// one is exact: all money as decimals.
std::string money_csv(const Project& project, const MoneyBook& book) {
  std::string csv = csv_row({"row", "tier", "orders", "kits", "price", "charged", "goods", "fees",
                             "postage", "packing", "outlays", "margin", "currency"});
  const auto row = [&](std::string_view kind, const TierAccount& one) {
    csv += csv_row({std::string(kind), id_of(project, one.tier), std::to_string(one.orders),
                    std::to_string(one.kits), amount_text(one.price), amount_text(one.charged),
                    amount_text(one.goods), amount_text(one.fees), amount_text(one.postage),
                    amount_text(one.packing), "", amount_text(one.margin), project.currency.code});
  };
  for (const TierAccount& one : book.account.tiers) row("tier", one);
  row("total", book.account.all);
  csv +=
      csv_row({"result", "all", "", "", "", "", "", "", "", "", amount_text(book.account.outlays),
               amount_text(book.account.result), project.currency.code});
  for (const tiers::Scenario& one : charted(book.outlook))
    csv += csv_row({one.all == book.outlook.planned() ? "planned" : "estimate", "all", "",
                    std::to_string(one.all), amount_text(one.brought), "", amount_text(one.goods),
                    amount_text(one.selling), "", "", amount_text(one.outlays),
                    amount_text(one.result), project.currency.code});
  return csv;
}

std::string money_json(const Project& project, const MoneyBook& book) {
  Json json;
  json.open_object();
  json.key("schema").text("money/1");
  json.key("project").text(project.id);
  json.key("edition").number(project.edition);
  json.key("currency").text(project.currency.code);
  json.key("minor_units").number(project.currency.exponent);
  json.key("tiers").open_array();
  for (const TierAccount& one : book.account.tiers) write_account(json, project, one);
  json.close_array();
  json.key("all");
  write_account(json, project, book.account.all);
  json.key("outlays").number(book.account.outlays.minor);
  json.key("result").number(book.account.result.minor);
  json.key("left_unused").number(book.account.stranded.minor);
  json.key("values").open_array();
  for (std::size_t i = 0; i < project.tiers.size(); ++i) {
    const tiers::TierValue value = tiers::value_of(project, static_cast<int>(i));
    json.open_object();
    json.key("tier").text(project.tiers[i].id);
    json.key("shop_value").number(value.total.minor);
    json.key("gifts").number(value.gifts.minor);
    json.key("all_priced").truth(value.unpriced.empty());
    json.close_object();
  }
  json.close_array();
  json.key("scenarios").open_array();
  for (const tiers::Scenario& one : charted(book.outlook)) {
    json.open_object();
    json.key("kits").number(one.all);
    json.key("estimate").truth(one.all != book.outlook.planned());
    json.key("brought").number(one.brought.minor);
    json.key("goods").number(one.goods.minor);
    json.key("selling").number(one.selling.minor);
    json.key("result").number(one.result.minor);
    json.close_object();
  }
  json.close_array();
  json.close_object();
  return json.take();
}

} // namespace leafwright::guide
