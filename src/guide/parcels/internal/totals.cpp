#include "guide/parcels/internal/parcel_words.h"
#include "guide/parcels/parcel_documents.h"
#include "guide/prose.h"
#include "guide/sections.h"
#include "guide/shop/shop_words.h"
#include "language/agreement.h"
#include "language/words.h"
#include "measure/index.h"
#include "plan/tier/ledger.h"
#include "records/records.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

namespace leafwright::guide {

namespace {

using orders::PartLine;

// Envelopes of one letter that hold equally many.
struct EnvelopeRow {
  PartLine part;
  std::int64_t envelopes = 0;
};

bool posted(const Project& project, const PackingList& list, std::size_t kind) {
  const auto tier = as_index(list.parcels.kinds[kind].tier);
  return project.tiers.at(tier).shipping != Tier::Shipping::None;
}

// By paper, then by letter, as the cut list has them; fuller envelopes first.
std::vector<EnvelopeRow> envelope_rows(const PackingList& list) {
  std::map<std::tuple<int, int, std::int64_t>, EnvelopeRow> rows;
  for (std::size_t k = 0; k < list.parcels.kinds.size(); ++k)
    for (const PartLine& part : list.contents.at(k).parts) {
      EnvelopeRow& row = rows[{part.stock, part.line, -part.count}];
      row.part = part;
      row.envelopes += list.parcels.kinds[k].kits;
    }
  std::vector<EnvelopeRow> sorted;
  for (const auto& [key, row] : rows) sorted.push_back(row);
  return sorted;
}

Table parts_table(const Project& project, const PackingList& list) {
  const bool cards = project.cards.size() > 1;
  Table table;
  table.caption = "Parts by envelope";
  table.columns.push_back({{}, Column::Align::Centre, 0.3, false});
  table.columns.push_back({plain("Part"), Column::Align::Left, 1.6, true});
  table.columns.push_back({plain("Paper"), Column::Align::Left, 1.2, false});
  if (cards) table.columns.push_back({plain("Card"), Column::Align::Centre, 0.4, false});
  table.columns.push_back({plain("Size"), Column::Align::Left, 1.2, false});
  table.columns.push_back({plain("In one"), Column::Align::Right, 0.5, false});
  table.columns.push_back({plain("Envelopes"), Column::Align::Right, 0.7, false});
  table.columns.push_back({plain("Pieces"), Column::Align::Right, 0.6, false});
  table.columns.push_back({plain("Filled"), Column::Align::Centre, 0.4, false});
  std::int64_t envelopes = 0, pieces = 0;
  for (const EnvelopeRow& one : envelope_rows(list)) {
    const std::int64_t all = one.envelopes * one.part.count;
    envelopes += one.envelopes;
    pieces += all;
    Row row;
    row.cells.push_back(one.part.letter.empty() ? Inlines{}
                                                : Inlines{PieceLetter{one.part.letter}});
    const bool share =
        one.part.line < 0 || list.pieces.lines.at(as_index(one.part.line)).piece.card < 0;
    row.cells.push_back(
        plain(share ? std::string("Share of a sheet")
                    : words::sentence_case(part_name(project, list.pieces, one.part))));
    row.cells.push_back(plain(item_name(project, {ItemKind::Stock, one.part.stock})));
    if (cards) row.cells.push_back(plain(part_card(project, list.pieces, one.part)));
    row.cells.push_back(plain(size_text(one.part.size, project.printing)));
    row.cells.push_back(plain(std::to_string(one.part.count)));
    row.cells.push_back(strong(std::to_string(one.envelopes)));
    row.cells.push_back(plain(std::to_string(all)));
    row.cells.push_back(Inlines{TickBox{}});
    table.rows.push_back(std::move(row));
  }
  Row total{Row::Kind::Total, std::vector<Inlines>(table.columns.size())};
  const std::size_t last = table.columns.size();
  total.cells[1] = plain("All together");
  total.cells[last - 3] = plain(std::to_string(envelopes));
  total.cells[last - 2] = plain(std::to_string(pieces));
  table.rows.push_back(std::move(total));
  return table;
}

// What is measured off or counted out beside the parts: like portions of one thing in one row.
Table supplies_rows(const Project& project, const PackingList& list) {
  struct Portion {
    supply::KitItem taking;
    std::int64_t kits = 0;
  };
  std::map<std::tuple<supply::Group, int, int, std::string>, Portion> portions;
  for (std::size_t k = 0; k < list.parcels.kinds.size(); ++k) {
    if (!posted(project, list, k)) continue;
    for (const orders::SupplyLine& line : list.contents.at(k).supplies) {
      const ItemRef item = line.taking.item;
      Portion& portion = portions[{supply::group_of(project, item), static_cast<int>(item.kind),
                                   item.index, taking_amount(project, line.taking, 1)}];
      portion.taking = line.taking;
      portion.kits += list.parcels.kinds[k].kits;
    }
  }
  Table table;
  table.caption = "Supplies by the kit";
  table.columns = {{plain("Item"), Column::Align::Left, 2.4, true},
                   {plain("In one kit"), Column::Align::Left, 1.0, false},
                   {plain("Kits"), Column::Align::Right, 0.5, false},
                   {plain("All together"), Column::Align::Left, 1.2, false}};
  for (const auto& [key, portion] : portions) {
    Row row;
    Prose item;
    item.append(Inlines{TickBox{}});
    item.say("\u00A0" + words::tie_measures(item_name(project, portion.taking.item)));
    row.cells = {item.fragment(), plain(std::get<3>(key)), plain(std::to_string(portion.kits)),
                 plain(taking_amount(project, portion.taking, portion.kits))};
    table.rows.push_back(std::move(row));
  }
  return table;
}

// A long list of short rows: its halves stand side by side.
void add_in_halves(Section& section, Table table) {
  constexpr std::size_t long_list = 8;
  if (table.rows.size() < long_list) return add(section, std::move(table));
  const auto half = static_cast<std::ptrdiff_t>((table.rows.size() + 1) / 2);
  Table rest = table;
  rest.caption += ", continued";
  rest.rows.erase(rest.rows.begin(), rest.rows.begin() + half);
  table.rows.erase(table.rows.begin() + half, table.rows.end());
  SideBySide halves;
  halves.texts = {{{Block{std::move(table), {}}}}, {{Block{std::move(rest), {}}}}};
  add(section, std::move(halves));
}

// Its envelopes in a line of their own, then what is counted out beside them.
std::vector<Ticks> kind_ticks(const Project& project, const PackingList& list, std::size_t kind) {
  std::vector<Ticks> ticks;
  const orders::Contents& contents = list.contents.at(kind);
  if (!contents.parts.empty()) {
    Prose letters;
    letters.say("Envelopes ");
    for (const PartLine& part : contents.parts)
      letters.append(Inlines{PieceLetter{part.letter}}).say(" ");
    ticks.push_back({1, {letters.fragment()}});
  }
  if (contents.supplies.empty()) return ticks;
  ticks.push_back({2, {}});
  for (const orders::SupplyLine& line : contents.supplies)
    ticks.back().items.push_back(supply_item(project, line, 1));
  return ticks;
}

} // namespace

Document totals(const Project& project, const PackingList& list, const ParcelOptions& options) {
  Document document = shop_document(project, "Totals by envelope", options.draft);
  std::int64_t kits = 0;
  std::vector<int> by_tier(project.tiers.size(), 0);
  for (std::size_t k = 0; k < list.parcels.kinds.size(); ++k) {
    if (!posted(project, list, k)) continue;
    kits += list.parcels.kinds[k].kits;
    by_tier.at(as_index(list.parcels.kinds[k].tier)) += list.parcels.kinds[k].kits;
  }
  Section parts{"totals-parts", "Parts by envelope", {}};
  add(parts, heading(1, "totals-parts", "Totals by envelope"));
  const std::string which = kits_words(project, by_tier);
  const bool any_parts = !envelope_rows(list).empty();
  std::string words =
      kits == 0 ? "There is nothing to pack: no orders, and no kits expected."
                : words::sentence_case(words::counted(kits, "kit")) + " to pack: " + which + ".";
  if (any_parts)
    words += " Fill all envelopes of one letter before you begin the next: count each letter's "
             "pieces out once, and you see right away what is left or missing.";
  add(parts, lead(plain(words)));
  if (list.rows_left_out > 0)
    add(parts, Notice{Notice::Kind::Warning, "Rows are left out.",
                      plain(words::sentence_case(words::counted(
                                static_cast<std::int64_t>(list.rows_left_out), "row")) +
                            " of the roster could not be read and " +
                            words::agreed("do", static_cast<std::int64_t>(list.rows_left_out)) +
                            " not count here.")});
  if (any_parts) add(parts, parts_table(project, list));
  document.sections.push_back(std::move(parts));
  if (kits == 0) return document;

  Section supplies{"totals-supplies", "Supplies by the kit", {}};
  add(supplies, heading(2, "totals-supplies", "Supplies by the kit"));
  add_in_halves(supplies, supplies_rows(project, list));
  document.sections.push_back(std::move(supplies));

  Section batches{"totals-kits", "Kit by kit", {}};
  add(batches, heading(1, "totals-kits", "Lay out, kit by kit"));
  add(batches,
      lead(plain("When the envelopes are filled, assemble all kits of one kind together: "
                 "lay one of each thing in a row and walk along it with an open parcel.")));
  for (std::size_t k = 0; k < list.parcels.kinds.size(); ++k) {
    if (!posted(project, list, k)) continue;
    add(batches, Heading{2,
                         {},
                         kind_name(project, list, k),
                         {},
                         words::figured(list.parcels.kinds[k].kits, "kit")});
    for (Ticks& ticks : kind_ticks(project, list, k)) add(batches, std::move(ticks));
  }
  document.sections.push_back(std::move(batches));
  return document;
}

namespace {

using records::amount_text;
using records::csv_row;
using records::millimetre_text;

std::string remarks(const Project& project, const PackingList& list, const orders::Parcel& parcel) {
  std::string words = change_words(project, list.parcels.changes.at(as_index(parcel.kind)));
  const auto add = [&](std::string_view word) {
    words += (words.empty() ? "" : "; ") + std::string(word);
  };
  if (together(list, parcel).size() > 1) add("in one parcel with others");
  if (parcel.late) add("late");
  if (parcel.repeated) add("same name and tier before");
  if (const std::string asked = not_owned_words(project, parcel); !asked.empty())
    add("not said to own " + asked);
  if (!list.contents.at(as_index(parcel.kind)).mass.complete()) add("weight incomplete");
  return words;
}

} // namespace

std::string parcels_csv(const Project& project, const PackingList& list) {
  // The roster's own columns stand last, under their names: e-mail, paid, number.
  std::vector<std::string> others;
  for (const orders::Parcel& parcel : list.parcels.parcels)
    for (const Order::Other& one : at(project.run.orders, parcel.order).others)
      if (std::ranges::find(others, one.column) == others.end()) others.push_back(one.column);
  std::vector<std::string> heads{
      "parcel",   "name",        "address",   "tier",      "kits",   "region",  "grams",
      "credit",   "swaps_worth", "left_over", "off_price", "to_pay", "due",     "received",
      "returned", "owed",        "sent",      "picked_up", "status", "remarks", "note"};
  heads.insert(heads.end(), others.begin(), others.end());
  std::string csv = csv_row(heads);
  const tiers::Ledger ledger = tiers::ledger_of(project);
  for (std::size_t i = 0; i < list.parcels.parcels.size(); ++i) {
    const orders::Parcel& parcel = list.parcels.parcels[i];
    const Order& order = project.run.orders.at(as_index(parcel.order));
    const bool leads = together(list, parcel).front() == static_cast<int>(i);
    const tiers::LedgerLine* line = tiers::line_of(ledger, parcel.order);
    const bool told = line != nullptr && line->told;
    const orders::Change& change = list.parcels.changes.at(as_index(parcel.kind));
    const auto money = [&](const Money& one) {
      return change.empty() ? std::string() : amount_text(one * parcel.kits);
    };
    std::vector<std::string> cells{
        std::to_string(parcel.box + 1),
        order.name,
        order.address,
        project.tiers.at(as_index(order.tier)).name,
        std::to_string(parcel.kits),
        order.region,
        leads ? std::to_string(orders::grams_of(box_mass(project, list, parcel))) : std::string(),
        money(change.credit),
        money(change.worth),
        money(change.remainder),
        money(change.off),
        money(change.to_pay),
        line == nullptr ? std::string() : amount_text(line->due),
        told ? amount_text(line->paid) : std::string(),
        told ? amount_text(line->refunded) : std::string(),
        told ? amount_text(line->owed) : std::string(),
        order.sent,
        order.picked_up ? "yes" : "",
        std::string(word_of(order.status)),
        remarks(project, list, parcel),
        order.note};
    for (const std::string& column : others) {
      const auto said = std::ranges::find(order.others, column, &Order::Other::column);
      cells.push_back(said == order.others.end() ? std::string() : said->text);
    }
    csv += csv_row(cells);
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
