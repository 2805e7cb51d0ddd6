#include "guide/sections.h"
#include "guide/shop/internal/buying_rest.h"
#include "guide/shop/shop.h"
#include "guide/shop/shop_words.h"
#include "language/english.h"
#include "language/words.h"
#include "measure/index.h"
#include "plan/calendar/day_plan.h"

#include <algorithm>
#include <optional>
#include <utility>

namespace leafwright::guide {
namespace {

using supply::Buying;
using supply::BuyingLine;
using supply::Purchase;

constexpr std::size_t columns = 6;

// Whether it is a pack with that stock in it.
bool holds(const Project& project, const Purchase& one, int stock) {
  if (one.item.kind != ItemKind::Pack) return false;
  const Pack& pack = project.packs.at(as_index(one.item.index));
  return std::any_of(pack.lines.begin(), pack.lines.end(),
                     [&](const Pack::Line& held) { return held.stock == stock; });
}

// Packs that hold several papers stand above the papers they hold.
bool from_packs(const Project& project, const Buying& buying, const BuyingLine& line) {
  if (line.item.kind != ItemKind::Stock || line.offer != 0) return false;
  return std::any_of(buying.purchases.begin(), buying.purchases.end(),
                     [&](const Purchase& one) { return holds(project, one, line.item.index); });
}

std::vector<const Purchase*> purchases_of(const Project& project, const Buying& buying,
                                          const BuyingLine& line) {
  std::vector<const Purchase*> found;
  for (const Purchase& one : buying.purchases) {
    if (one.item != line.item) continue;
    if (one.item.kind == ItemKind::Stock) {
      const auto& offers = project.stocks.at(as_index(one.item.index)).sheets;
      if (offers.at(as_index(one.offer)).size != offers.at(as_index(line.offer)).size) continue;
    }
    found.push_back(&one);
  }
  return found;
}

std::string needed_words(const Project& project, const BuyingLine& line) {
  if (line.item.kind == ItemKind::Ribbon && line.length > Length{})
    return length_text(line.length, project.printing) +
           (line.needed > 0 ? ", " + units_words(project, line, line.needed) : ", from leftovers");
  if (line.item.kind == ItemKind::Adhesive && line.unit == BuyingLine::CountedIn::Rolls &&
      line.length > Length{})
    return units_words(project, line, line.needed) + ", " +
           length_text(line.length, project.printing);
  return units_words(project, line, line.needed);
}

std::string in_hand_words(const Project& project, const BuyingLine& line) {
  std::vector<std::string> parts;
  if (line.in_hand > 0) parts.push_back(units_words(project, line, line.in_hand));
  for (const StockInHand& hand : project.run.in_hand) {
    if (hand.item != line.item) continue;
    if (hand.length > Length{}) parts.push_back(length_text(hand.length, project.printing));
    if (hand.offcut != Size{}) parts.push_back(words::figured(std::max(hand.count, 1), "offcut"));
  }
  return parts.empty() ? "–" : words::listed(parts);
}

std::string left_words(const Project& project, const BuyingLine& line) {
  std::vector<std::string> parts;
  if (line.left > 0) parts.push_back(units_words(project, line, line.left));
  Length left{};
  std::int64_t pieces = 0;
  for (const supply::RibbonCut& one : line.lengths_left) {
    left += one.length * one.count;
    pieces += one.count;
  }
  if (pieces > 0)
    parts.push_back(length_text(left, project.printing) +
                    (pieces > 1 ? " (" + words::counted(pieces, "piece") + ")" : ""));
  return parts.empty() ? "–" : words::listed(parts);
}

Inlines buy_cell(const Project& project, const std::vector<const Purchase*>& purchases) {
  if (purchases.empty()) return plain("–");
  Inlines cell;
  for (const Purchase* one : purchases) {
    if (!cell.empty()) cell.push_back(Words{", ", Words::Style::Plain});
    cell.push_back(TickBox{});
    cell.push_back(Words{"\u00A0" + packs_words(project, *one), Words::Style::Strong});
  }
  return cell;
}

std::string cost_words(const Project& project, const std::vector<const Purchase*>& purchases) {
  if (purchases.empty()) return {};
  Money cost{0, project.currency};
  for (const Purchase* one : purchases) {
    if (!one->price) return "no price";
    cost = cost + one->cost;
  }
  return money_text(cost);
}

// The shop's name of a stock holds its sheet: "Kraft, 80 lb cover, letter".
std::string line_name(const Project& project, const BuyingLine& line) {
  std::string name = listed_item(project, line.item);
  if (line.item.kind == ItemKind::Stock && line.offer > 0)
    name = item_name(project, line.item) + ", " + sheet_name(project, line.item.index, line.offer);
  return name;
}

Row line_row(const Project& project, const Buying& buying, const BuyingLine& line) {
  const std::vector<const Purchase*> purchases = purchases_of(project, buying, line);
  Inlines buy = buy_cell(project, purchases);
  if (purchases.empty() && line.bought > 0 && from_packs(project, buying, line))
    buy = plain(words::figured(line.bought, "sheet") + " in packs");
  Row row;
  row.cells = {plain(line_name(project, line)),       plain(needed_words(project, line)),
               plain(in_hand_words(project, line)),   std::move(buy),
               plain(cost_words(project, purchases)), plain(left_words(project, line))};
  return row;
}

Row pack_row(const Project& project, const Buying& buying, const Purchase& pack) {
  const auto given = std::find_if(buying.lines.begin(), buying.lines.end(),
                                  [&](const BuyingLine& line) { return line.item == pack.item; });
  const std::vector<const Purchase*> one{&pack};
  std::vector<std::string> held;
  for (const Pack::Line& line : project.packs.at(as_index(pack.item.index)).lines)
    held.push_back(std::to_string(line.sheets) + "\u00A0" +
                   item_name(project, {ItemKind::Stock, line.stock}));
  Row row;
  row.cells = {
      plain(item_name(project, pack.item) + " (" + words::listed(held) + ")"),
      plain(given == buying.lines.end() ? "" : units_words(project, *given, given->needed)),
      plain(given == buying.lines.end() ? "–" : in_hand_words(project, *given)),
      buy_cell(project, one),
      plain(cost_words(project, one)),
      plain(given == buying.lines.end() ? "" : left_words(project, *given))};
  return row;
}

// A row under the name of who sells it, or of its kind where nobody is named.
struct Entry {
  int supplier = -1;
  std::string group;
  Row row;
};

// The supplier whose parcel a line's things come in.
int seller_of(const Project& project, const Buying& buying, const BuyingLine& line) {
  if (from_packs(project, buying, line) && purchases_of(project, buying, line).empty())
    for (const Purchase& one : buying.purchases)
      if (holds(project, one, line.item.index)) return calendar::supplier_of(project.run, one.item);
  return calendar::supplier_of(project.run, line.item);
}

std::vector<Entry> entries_of(const Project& project, const Buying& buying) {
  const auto& suppliers = project.run.suppliers;
  std::vector<Entry> entries;
  const auto add = [&](supply::Group group, int supplier, Row row) {
    const std::string name = suppliers.empty() ? std::string(supply::group_words(group))
                             : supplier < 0    ? std::string("Any shop")
                                               : suppliers.at(as_index(supplier)).name;
    entries.push_back({supplier, name, std::move(row)});
  };
  bool packs_told = false;
  const auto add_packs = [&] {
    if (std::exchange(packs_told, true)) return;
    for (const Purchase& one : buying.purchases)
      if (one.item.kind == ItemKind::Pack)
        add(supply::Group::Patterned, calendar::supplier_of(project.run, one.item),
            pack_row(project, buying, one));
  };
  for (const BuyingLine& line : buying.lines) {
    if (line.group == supply::Group::Patterned) add_packs();
    const bool pack = line.item.kind == ItemKind::Pack;
    if (!pack || line.bought == 0)
      add(line.group, seller_of(project, buying, line), line_row(project, buying, line));
  }
  add_packs();
  // Of nobody last.
  const auto rank = [&](const Entry& one) {
    return one.supplier < 0 ? suppliers.size() : as_index(one.supplier);
  };
  if (!suppliers.empty()) std::ranges::stable_sort(entries, {}, rank);
  return entries;
}

Table buying_table(const Project& project, const Buying& buying) {
  Table table;
  table.caption = "What to buy";
  table.columns = {{plain("Item"), Column::Align::Left, 2.6, true},
                   {plain("Needed"), Column::Align::Left, 1.1, false},
                   {plain("In hand"), Column::Align::Left, 0.9, false},
                   {plain("Buy"), Column::Align::Left, 1.5, false},
                   {plain("Cost"), Column::Align::Right, 0.7, false},
                   {plain("Left over"), Column::Align::Left, 0.9, false}};
  std::string group;
  for (Entry& entry : entries_of(project, buying)) {
    if (entry.group != group)
      table.rows.push_back({Row::Kind::Group, {plain(group = std::move(entry.group))}});
    table.rows.push_back(std::move(entry.row));
  }
  Row total{Row::Kind::Total, std::vector<Inlines>(columns)};
  total.cells[0] = plain("All together");
  total.cells[4] = plain(money_text(buying.total));
  table.rows.push_back(std::move(total));
  return table;
}

Section list_section(const Project& project, const Buying& buying) {
  Section section{"buying-list", "Shopping list", {}};
  add(section, heading(1, "buying-list", "Shopping list"));
  const std::string kits = kits_words(project, buying.kits);
  std::string words = kits.empty() ? "No kits are ordered." : "For " + kits + ".";
  words += " Sheets are counted as in the cutting plan";
  words += project.run.spare_percent > 0 || project.run.spare_pieces > 0
               ? ", with the spare pieces the project asks for."
               : ", without spare pieces.";
  add(section, lead(plain(words)));
  add_findings(section, buying.findings);
  if (buying.lines.empty()) return section;
  add(section, buying_table(project, buying));
  std::string proof = buying.least_cost ? "No other mix of your packs costs less for these sheets."
                                        : "A cheaper choice of packs may exist.";
  proof += " Prices are the ones in your project, before tax and " +
           std::string(words::terms(project.language).shipping) + ".";
  add(section, small(plain(proof)));
  return section;
}

} // namespace

Document buying_list(const Project& project, const Buying& buying, const ShopOptions& options) {
  Document document = shop_document(project, "shopping list", options.draft);
  document.sections.push_back(list_section(project, buying));
  Section ribbon = ribbon_section(project, buying);
  Section kept = kept_section(project, buying);
  if (!ribbon.blocks.empty() && !kept.blocks.empty()) {
    // Both are short lists of short lines.
    SideBySide both;
    both.texts = {{std::move(ribbon.blocks)}, {std::move(kept.blocks)}};
    ribbon.blocks.clear();
    kept.blocks = {{std::move(both), {}}};
  }
  for (Section* section : {&ribbon, &kept})
    if (!section->blocks.empty()) document.sections.push_back(std::move(*section));
  return document;
}

} // namespace leafwright::guide
