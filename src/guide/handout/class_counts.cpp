#include "guide/handout/class_counts.h"

#include "guide/prose/naming.h"
#include "guide/section/amounts.h"
#include "guide/section/blocks.h"
#include "guide/section/supplies.h"
#include "guide/words/count.h"
#include "guide/words/letter_case.h"
#include "plan/supply/needs.h"

#include <algorithm>
#include <optional>

namespace leafwright::guide {
namespace {

std::int64_t with_spare(const Run& run, std::int64_t count) {
  return count + (count * run.spare_percent + 99) / 100 + run.spare_pieces;
}

std::string tables_words(ClassSize size) {
  return words::counted(size.students, "student") +
         (size.tables > 1 ? " at " + words::counted(size.tables, "table") : std::string());
}

std::string table_head(ClassSize size) {
  return size.tables > 1 ? "A table of " + words::count_words(size.at_table()) : std::string();
}

} // namespace

ClassSize class_of(const Project& project, const HandoutOptions& options) {
  ClassSize size;
  if (project.run.class_day) {
    if (project.run.class_day->places > 0) size.students = project.run.class_day->places;
    size.tables = std::max(1, project.run.class_day->tables);
  }
  if (options.students > 0) size.students = options.students;
  if (options.tables > 0) size.tables = options.tables;
  size.tables = std::min(size.tables, size.students);
  return size;
}

void add_card_counts(Section& section, const Project& project, const supply::KitSheets& sheets,
                     std::size_t card_index, ClassSize size) {
  const Card& card = project.cards[card_index];
  const bool tables = size.tables > 1;
  const bool spare = project.run.spare_percent > 0 || project.run.spare_pieces > 0;
  Table table;
  table.caption = "To prepare for “" + card.title + "”";
  table.columns = {{{}, Column::Align::Centre, 0.3, false},
                   {plain("Part, before class"), Column::Align::Left, 2.0, true},
                   {plain("Each"), Column::Align::Right, 0.5, false}};
  if (tables) table.columns.push_back({plain(table_head(size)), Column::Align::Right, 0.8, false});
  table.columns.push_back(
      {plain("All " + words::count_words(size.students)), Column::Align::Right, 0.7, false});
  if (spare) table.columns.push_back({plain("With spare"), Column::Align::Right, 0.7, false});
  for (const supply::CutLine& line : sheets.lines) {
    if (line.piece.card != static_cast<int>(card_index)) continue;
    const Piece* piece = piece_at(card, line.piece.piece);
    if (piece == nullptr) continue;
    const std::int64_t all = static_cast<std::int64_t>(line.per_kit) * size.students;
    Row row;
    row.cells.push_back(line.letter.empty() ? Inlines{} : Inlines{PieceLetter{line.letter}});
    row.cells.push_back(plain(words::sentence_case(piece_noun(*piece))));
    row.cells.push_back(plain(std::to_string(line.per_kit)));
    if (tables) row.cells.push_back(plain(std::to_string(line.per_kit * size.at_table())));
    row.cells.push_back(plain(std::to_string(all)));
    if (spare) row.cells.push_back(plain(std::to_string(with_spare(project.run, all))));
    table.rows.push_back(std::move(row));
  }
  add(section, heading(2, card_anchor(card.id) + "-prepare", "To prepare", {}, tables_words(size)),
      card.place);
  add(section, std::move(table), card.place);
}

Section class_sheet(const Project& project, const supply::KitSheets& sheets, ClassSize size) {
  Section section{"class", "Before class", {}};
  add(section, heading(1, "class", "Before class", {}, tables_words(size)));
  add(section,
      lead(
          plain("Everything but the cut parts, which stand on each card's own sheet. Every student "
                "makes one kit; sheets are those of one cutting plan for the whole class.")));
  supply::Needs one = supply::needs_of_kit(project);
  supply::add_sheets(one, sheets);
  const supply::Needs table_needs = supply::needs_of_kit(project, size.at_table());
  supply::Needs all = supply::needs_of_kit(project, size.students);
  supply::add_sheets(all, supply::sheets_for(project, size.students));
  const bool tables = size.tables > 1;
  Table table;
  table.caption = "What one student, a table and the class take";
  table.columns = {{plain("Item"), Column::Align::Left, 3.0, true},
                   {plain("Each"), Column::Align::Right, 1.0, false}};
  if (tables) table.columns.push_back({plain(table_head(size)), Column::Align::Right, 1.0, false});
  table.columns.push_back(
      {plain("All " + words::count_words(size.students)), Column::Align::Right, 1.0, false});
  std::optional<supply::Group> group;
  for (const supply::Need& need : all) {
    const supply::Need* single = supply::find(one, need.item);
    const supply::Need* at_table = supply::find(table_needs, need.item);
    if (single == nullptr || at_table == nullptr) continue;
    if (need.group != group) {
      group = need.group;
      table.rows.push_back({Row::Kind::Group, {plain(supply::group_words(need.group))}});
    }
    const bool stock = need.item.kind == ItemKind::Stock;
    Row row;
    row.cells.push_back(item_cell(project, need.item));
    if (!need.consumed) {
      row.cells.push_back(quiet("to share"));
      if (tables) row.cells.push_back(quiet("to share"));
      row.cells.emplace_back();
    } else {
      row.cells.push_back(plain(amount_words(project, *single)));
      // Sheets are cut for the whole class, not by table.
      if (tables) row.cells.push_back(stock ? Inlines{} : plain(amount_words(project, *at_table)));
      row.cells.push_back(plain(amount_words(project, need)));
    }
    table.rows.push_back(std::move(row));
  }
  add(section, std::move(table));
  return section;
}

} // namespace leafwright::guide
