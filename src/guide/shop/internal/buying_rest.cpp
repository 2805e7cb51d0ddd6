#include "guide/shop/internal/buying_rest.h"

#include "guide/sections.h"
#include "guide/shop/shop_words.h"
#include "language/english.h"
#include "language/words.h"
#include "measure/index.h"

#include <string>
#include <utility>
#include <vector>

namespace leafwright::guide {
namespace {

using supply::Buying;
using supply::BuyingLine;

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
  const std::string used = words::counted(plan.spools, "new spool");
  if (plan.proven)
    return plan.spools == 0   ? used + ": the leftovers you have are enough."
           : plan.spools == 1 ? used + "."
                              : used + "; no piece spans two, and no plan can use fewer than " +
                                    words::count_words(plan.spools) + ".";
  return used + "; the best possible is " + std::to_string(plan.at_least) + " to " +
         std::to_string(plan.spools) + ".";
}

void add_reels(Table& table, const Project& project, const BuyingLine& line) {
  table.rows.push_back({Row::Kind::Group, {item_cell(project, line.item)}});
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
}

} // namespace

Section ribbon_section(const Project& project, const Buying& buying) {
  Section section{"buying-ribbon", "Ribbon from the spool", {}};
  Table table;
  table.caption = "What is cut from each spool";
  table.columns = {{plain("From"), Column::Align::Left, 1.4, true},
                   {plain("Cut"), Column::Align::Left, 2.6, false},
                   {plain("Left over"), Column::Align::Right, 0.8, false}};
  std::string proofs;
  for (const BuyingLine& line : buying.lines) {
    if (!line.spools || line.spools->reels.empty()) continue;
    add_reels(table, project, line);
    proofs += (proofs.empty() ? "" : " ") + item_name(project, line.item) + ": " +
              spool_words(*line.spools);
  }
  if (table.rows.empty()) return section;
  add(section, heading(2, "buying-ribbon", "Ribbon from the spool"));
  add(section, std::move(table));
  add(section, small(plain(proofs)));
  return section;
}

namespace {

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

} // namespace

Section kept_section(const Project& project, const Buying& buying) {
  Section section{"buying-kept", "Worth keeping", {}};
  Table table;
  table.caption = "What is left over and worth keeping";
  table.columns = {{plain("Item"), Column::Align::Left, 1.4, true},
                   {plain("Offcuts and ribbon"), Column::Align::Left, 3.0, false}};
  for (const BuyingLine& line : buying.lines) {
    const std::string kept = kept_words(project, line);
    if (kept.empty()) continue; // whole sheets and things stand in the list
    Row row;
    row.cells = {plain(item_name(project, line.item)), plain(kept)};
    table.rows.push_back(std::move(row));
  }
  if (table.rows.empty()) return section;
  add(section, heading(2, "buying-kept", "Worth keeping"));
  const bool inch = project.printing.unit == Unit::Inch;
  add(section, std::move(table));
  add(section,
      small(plain(std::string("This comes on top of the whole sheets in the list. It leaves out "
                              "paper with a side under ") +
                  (inch ? "2\u00A0in" : "50\u00A0mm") + " and ribbon under " +
                  (inch ? "4\u00A0in" : "100\u00A0mm") + ".")));
  return section;
}

} // namespace leafwright::guide
