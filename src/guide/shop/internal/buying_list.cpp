#include "guide/sections.h"
#include "guide/shop/shop.h"
#include "guide/shop/shop_words.h"
#include "language/english.h"
#include "language/words.h"
#include "measure/index.h"

#include <algorithm>
#include <optional>
#include <utility>

namespace leafwright::guide {
namespace {

using supply::Buying;
using supply::BuyingLine;
using supply::Purchase;

constexpr std::size_t columns = 6;

// Packs that hold several papers stand above the papers they hold.
bool from_packs(const Project& project, const Buying& buying, const BuyingLine& line) {
  if (line.item.kind != ItemKind::Stock || line.offer != 0) return false;
  return std::any_of(buying.purchases.begin(), buying.purchases.end(), [&](const Purchase& one) {
    if (one.item.kind != ItemKind::Pack) return false;
    const Pack& pack = project.packs.at(as_index(one.item.index));
    return std::any_of(pack.lines.begin(), pack.lines.end(),
                       [&](const Pack::Line& held) { return held.stock == line.item.index; });
  });
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

Table buying_table(const Project& project, const Buying& buying) {
  Table table;
  table.caption = "What to buy";
  table.columns = {{plain("Item"), Column::Align::Left, 2.6, true},
                   {plain("Needed"), Column::Align::Left, 1.1, false},
                   {plain("In hand"), Column::Align::Left, 0.9, false},
                   {plain("Buy"), Column::Align::Left, 1.5, false},
                   {plain("Cost"), Column::Align::Right, 0.7, false},
                   {plain("Left over"), Column::Align::Left, 0.9, false}};
  std::optional<supply::Group> group;
  const auto open_group = [&](supply::Group wanted) {
    if (group == wanted) return;
    group = wanted;
    table.rows.push_back({Row::Kind::Group, {plain(supply::group_words(wanted))}});
  };
  const auto add_packs = [&] {
    for (const Purchase& one : buying.purchases)
      if (one.item.kind == ItemKind::Pack) table.rows.push_back(pack_row(project, buying, one));
  };
  bool packs_told = false;
  for (const BuyingLine& line : buying.lines) {
    open_group(line.group);
    if (line.group == supply::Group::Patterned && !packs_told) {
      packs_told = true;
      add_packs();
    }
    const bool pack = line.item.kind == ItemKind::Pack;
    if (!pack || line.bought == 0) table.rows.push_back(line_row(project, buying, line));
  }
  if (!packs_told && std::any_of(buying.purchases.begin(), buying.purchases.end(),
                                 [](const auto& one) { return one.item.kind == ItemKind::Pack; })) {
    open_group(supply::Group::Patterned);
    add_packs();
  }
  Row total{Row::Kind::Total, std::vector<Inlines>(columns)};
  total.cells[0] = plain("All together");
  total.cells[4] = plain(money_text(buying.total));
  table.rows.push_back(std::move(total));
  return table;
}

Section list_section(const Project& project, const Buying& buying) {
  Section section{"buying-list", "Buying list", {}};
  add(section, heading(1, "buying-list", "Buying list"));
  const std::string kits = kits_words(project, buying.kits);
  std::string words = kits.empty() ? "No kits are ordered." : "For " + kits + ".";
  words += " Sheets are counted as the cutting plan lays them out";
  words += project.run.spare_percent > 0 || project.run.spare_pieces > 0
               ? ", with the spare pieces the project asks for."
               : "; no spare pieces are allowed for.";
  add(section, lead(plain(words)));
  add_findings(section, buying.findings);
  if (buying.lines.empty()) return section;
  add(section, buying_table(project, buying));
  std::string proof =
      buying.least_cost
          ? "No other choice among the packs of the project costs less for these sheets."
          : "A cheaper choice of packs may exist.";
  proof += " Prices are those of the project, before tax and " +
           std::string(words::terms(project.language).shipping) + ".";
  add(section, small(plain(proof)));
  return section;
}

// --- Ribbon --------------------------------------------------------------------------------------

std::string cuts_words(const Project& project, const std::vector<spool::Cut>& cuts) {
  std::vector<std::string> parts;
  parts.reserve(cuts.size());
  for (const spool::Cut& cut : cuts)
    parts.push_back(std::to_string(cut.count) + "\u00A0× " +
                    length_text(cut.length, project.printing));
  return words::listed(parts);
}

std::string spool_words(const spool::Plan& plan) {
  const std::string used = words::sentence_case(words::counted(plan.spools, "new spool"));
  if (plan.proven)
    return plan.spools == 0   ? used + ": the leftovers you have are enough."
           : plan.spools == 1 ? used + "."
                              : used + "; no piece spans two, and no plan can use fewer than " +
                                    words::count_words(plan.spools) + ".";
  return used + "; the best possible is " + std::to_string(plan.at_least) + " to " +
         std::to_string(plan.spools) + ".";
}

void add_ribbon(Section& section, const Project& project, const BuyingLine& line) {
  const Ribbon& ribbon = project.ribbons.at(as_index(line.item.index));
  Table table;
  table.caption = "What is cut from each spool of " + ribbon.name;
  table.columns = {{plain("From"), Column::Align::Left, 1.4, true},
                   {plain("Cut"), Column::Align::Left, 2.6, false},
                   {plain("Left over"), Column::Align::Right, 0.8, false}};
  for (const spool::Reel& reel : line.spools->reels) {
    Row row;
    std::string from = words::figured(reel.times, "new spool");
    if (reel.rest >= 0) {
      Length room = reel.left;
      for (const spool::Cut& cut : reel.cuts) room += cut.length * cut.count;
      from = length_text(room, project.printing) + " in hand";
    }
    row.cells = {plain(words::sentence_case(from)),
                 plain(cuts_words(project, reel.cuts) + (reel.times > 1 ? " from each" : "")),
                 plain(length_text(reel.left, project.printing))};
    table.rows.push_back(std::move(row));
  }
  add(section, heading(3, {}, ribbon.name), ribbon.place);
  add(section, body(plain(spool_words(*line.spools))), ribbon.place);
  if (!table.rows.empty()) add(section, std::move(table), ribbon.place);
}

Section ribbon_section(const Project& project, const Buying& buying) {
  Section section{"buying-ribbon", "Ribbon from the spool", {}};
  for (const BuyingLine& line : buying.lines) {
    if (!line.spools || line.spools->reels.empty()) continue;
    if (section.blocks.empty()) add(section, heading(2, "buying-ribbon", "Ribbon from the spool"));
    add_ribbon(section, project, line);
  }
  return section;
}

// --- What is left --------------------------------------------------------------------------------

std::string kept_words(const Project& project, const BuyingLine& line) {
  std::vector<std::string> parts;
  constexpr std::size_t most = 6;
  for (const BuyingLine::Offcut& offcut : line.offcuts_left) {
    if (parts.size() == most) break;
    parts.push_back(std::to_string(offcut.count) + "\u00A0× " +
                    size_text(offcut.size, project.printing, true));
  }
  for (const supply::RibbonCut& rest : line.lengths_left) {
    if (parts.size() == most) break;
    parts.push_back(std::to_string(rest.count) + "\u00A0× " +
                    length_text(rest.length, project.printing));
  }
  std::string words = words::listed(parts);
  const std::size_t all = line.offcuts_left.size() + line.lengths_left.size();
  if (all > most) words += ", and smaller ones";
  return words;
}

Section kept_section(const Project& project, const Buying& buying) {
  Section section{"buying-kept", "Worth keeping", {}};
  Table table;
  table.caption = "What is left over and worth keeping";
  table.columns = {{plain("Item"), Column::Align::Left, 1.4, true},
                   {plain("Whole"), Column::Align::Left, 0.8, false},
                   {plain("Offcuts and ribbon"), Column::Align::Left, 3.0, false}};
  for (const BuyingLine& line : buying.lines) {
    std::string kept = kept_words(project, line);
    if (kept.empty() && line.left <= 0) continue;
    Row row;
    row.cells = {plain(item_name(project, line.item)),
                 plain(line.left > 0 ? units_words(project, line, line.left) : "–"),
                 plain(kept.empty() ? "–" : kept)};
    table.rows.push_back(std::move(row));
  }
  if (table.rows.empty()) return section;
  add(section, heading(2, "buying-kept", "Worth keeping"));
  const bool inch = project.printing.unit == Unit::Inch;
  add(section,
      body(plain(std::string("After the run this is left. Pieces of paper with a side under ") +
                 (inch ? "2\u00A0in" : "50\u00A0mm") + " and ribbon under " +
                 (inch ? "4\u00A0in" : "100\u00A0mm") + " are not counted.")));
  add(section, std::move(table));
  return section;
}

} // namespace

Document buying_list(const Project& project, const Buying& buying, const ShopOptions& options) {
  Document document = shop_document(project, "buying list", options.draft);
  document.sections.push_back(list_section(project, buying));
  for (Section section : {ribbon_section(project, buying), kept_section(project, buying)})
    if (!section.blocks.empty()) document.sections.push_back(std::move(section));
  return document;
}

} // namespace leafwright::guide
