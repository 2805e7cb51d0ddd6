#include "guide/parcels/naming.h"
#include "guide/parcels/parcels.h"
#include "measure/index.h"

#include "records/csv.h"
#include "records/numbers.h"

#include <fmt/format.h>

namespace leafwright::guide {

namespace {

using records::amount_text;
using records::csv_row;
using records::millimetre_text;

// To the next whole gram: carriers count what is begun.
std::string grams_text(Mass mass) { return std::to_string((mass.mg + 999) / 1000); }

std::string remarks(const Project& project, const PackingList& list, const orders::Parcel& parcel) {
  std::string words = change_words(project, list.parcels.changes.at(as_index(parcel.kind)));
  const auto add = [&](std::string_view word) {
    words += (words.empty() ? "" : "; ") + std::string(word);
  };
  if (parcel.late) add("late");
  if (parcel.repeated) add("same name and tier before");
  if (!list.contents.at(as_index(parcel.kind)).mass.unknown.empty()) add("weight incomplete");
  return words;
}

} // namespace

std::string parcels_csv(const Project& project, const PackingList& list) {
  std::string csv = csv_row({"parcel", "name", "address", "tier", "kits", "region", "grams",
                             "credit", "swaps_worth", "left_over", "to_pay", "remarks", "note"});
  for (std::size_t i = 0; i < list.parcels.parcels.size(); ++i) {
    const orders::Parcel& parcel = list.parcels.parcels[i];
    const Order& order = project.run.orders.at(as_index(parcel.order));
    const orders::Contents& contents = list.contents.at(as_index(parcel.kind));
    const orders::Change& change = list.parcels.changes.at(as_index(parcel.kind));
    const auto money = [&](const Money& one) {
      return change.empty() ? std::string() : amount_text(one * parcel.kits);
    };
    csv += csv_row({std::to_string(i + 1), order.name, order.address,
                    project.tiers.at(as_index(order.tier)).name, std::to_string(parcel.kits),
                    order.region, grams_text(orders::mass_of(project, contents, parcel.kits)),
                    money(change.credit), money(change.worth), money(change.remainder),
                    money(change.to_pay), remarks(project, list, parcel), order.note});
  }
  return csv;
}

std::string totals_csv(const Project& project, const PackingList& list) {
  std::string csv = csv_row({"letter", "part", "card", "stock", "width_mm", "height_mm", "tier",
                             "in_one_kit", "kits", "pieces"});
  for (std::size_t k = 0; k < list.parcels.kinds.size(); ++k) {
    const int kits = list.parcels.kinds[k].kits;
    for (const orders::PartLine& part : list.contents.at(k).parts)
      csv += csv_row({part.letter, part_name(project, list.pieces, part),
                      part_card(project, list.pieces, part),
                      item_name(project, {ItemKind::Stock, part.stock}),
                      millimetre_text(part.size.width), millimetre_text(part.size.height),
                      kind_name(project, list, k), std::to_string(part.count), std::to_string(kits),
                      std::to_string(part.count * kits)});
  }
  return csv;
}

} // namespace leafwright::guide
