#include "guide/internal/handout/class_counts.h"

#include "guide/prose.h"
#include "guide/sections.h"
#include "language/words.h"
#include "measure/index.h"
#include "measure/letters.h"
#include "plan/supply/needs.h"

#include <algorithm>
#include <optional>
#include <string>
#include <string_view>

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

bool is_blank(const Piece& piece) { return supply::rectangle_of(piece) != piece.size; }

} // namespace

bool any_blank(const Card& card) { return std::ranges::any_of(card.pieces, is_blank); }

std::string cut_size_words(const Project& project, const Piece& piece) {
  return is_blank(piece) ? size_text(supply::rectangle_of(piece), project.printing, true)
                         : piece_size_words(project, piece.shape, piece.size);
}

std::string finished_size_words(const Project& project, const Piece& piece) {
  return is_blank(piece) ? piece_size_words(project, piece.shape, piece.size) : std::string();
}

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

void add_card_counts(Section& section, const Project& project, const supply::CuttingPlan& sheets,
                     std::size_t card_index, ClassSize size) {
  const Card& card = project.cards[card_index];
  const bool tables = size.tables > 1;
  const bool spare = project.run.spare_percent > 0 || project.run.spare_pieces > 0;
  Table table;
  table.caption = "To prepare for “" + card.title + "”";
  table.columns = {{{}, Column::Align::Centre, 0.3, false},
                   {plain("Part, before class"), Column::Align::Left, 2.0, true},
                   {plain("Cut"), Column::Align::Left, 1.0, false}};
  const bool blanks = any_blank(card);
  if (blanks) table.columns.push_back({plain("Finished"), Column::Align::Left, 1.0, false});
  table.columns.push_back({plain("Each"), Column::Align::Right, 0.5, false});
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
    row.cells.push_back(plain(cut_size_words(project, *piece)));
    if (blanks) row.cells.push_back(plain(finished_size_words(project, *piece)));
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

Section class_sheet(const Project& project, const supply::CuttingPlan& sheets, ClassSize size) {
  Section section{"class", "Before class", {}};
  add(section, heading(1, "class", "Before class", {}, tables_words(size)));
  add(section,
      lead(plain(
          "Everything but the cut parts: those are on each card's own sheet. Every student makes "
          "one kit. Sheets are counted from one cutting plan for the whole class.")));
  supply::Needs one = supply::needs_of_kit(project);
  supply::add_sheets(one, sheets);
  const supply::Needs table_needs = supply::needs_of_kit(project, size.at_table());
  supply::Needs all = supply::needs_of_kit(project, size.students);
  supply::add_sheets(all, supply::fewest_sheets_for(project, size.students));
  const bool tables = size.tables > 1;
  Table table;
  table.caption = "What one student, a table and the class take";
  table.columns = {{plain("Item"), Column::Align::Left, 3.0, true},
                   {plain("Each"), Column::Align::Right, 1.0, false}};
  if (tables) table.columns.push_back({plain(table_head(size)), Column::Align::Right, 1.0, false});
  table.columns.push_back(
      {plain("All " + words::count_words(size.students)), Column::Align::Right, 1.0, false});
  Ticks shared;
  shared.columns = 3;
  std::optional<supply::Group> group;
  for (const supply::Need& need : all) {
    const supply::Need* single = supply::find(one, need.item);
    const supply::Need* at_table = supply::find(table_needs, need.item);
    if (single == nullptr || at_table == nullptr) continue;
    if (!need.consumed) {
      shared.items.push_back(item_cell(project, need.item));
      continue;
    }
    if (need.group != group) {
      group = need.group;
      table.rows.push_back({Row::Kind::Group, {plain(supply::group_words(need.group))}});
    }
    const bool stock = need.item.kind == ItemKind::Stock;
    Row row;
    row.cells.push_back(item_cell(project, need.item));
    row.cells.push_back(plain(amount_words(project, *single)));
    // Sheets are cut for the whole class, not by table.
    if (tables) row.cells.push_back(stock ? Inlines{} : plain(amount_words(project, *at_table)));
    row.cells.push_back(plain(amount_words(project, need)));
    table.rows.push_back(std::move(row));
  }
  add(section, std::move(table));
  if (!shared.items.empty()) {
    add(section, heading(2, "class-shared", "To share"));
    add(section, std::move(shared));
  }
  return section;
}

namespace {

struct Uses {
  bool blade = false, heat = false, pressure = false, lamp = false;
  std::vector<std::string> small_parts;
};

Uses uses_of(const Project& project, int card) {
  Uses uses;
  for (const supply::Need& need : supply::needs_of(project, card)) {
    // A tool of which nobody knows where it is used is no tool of this card.
    if (need.cards.empty()) continue;
    const auto at = as_index(need.item.index);
    if (need.item.kind == ItemKind::Embellishment && project.embellishments.at(at).small_part)
      uses.small_parts.push_back(words::plural(item_noun(project, need.item)));
    if (need.item.kind != ItemKind::Tool) continue;
    const Tool& tool = project.tools.at(at);
    uses.blade = uses.blade || tool.risk == Tool::Risk::Blade;
    uses.heat = uses.heat || tool.risk == Tool::Risk::Heat;
    uses.pressure = uses.pressure || tool.risk == Tool::Risk::Pressure;
    uses.lamp = uses.lamp || tool.works.has(Work::Light);
  }
  return uses;
}

// Of what is at hand: "Blades, rollers and hot tools".
std::string tools_words(const Uses& uses) {
  std::vector<std::string> kinds;
  if (uses.blade) kinds.emplace_back("blades");
  if (uses.pressure) kinds.emplace_back("rollers");
  if (uses.heat) kinds.emplace_back("hot tools");
  return words::sentence_case(words::listed(kinds));
}

bool speaks_of_light(std::string_view caution) {
  return mentions(caution, "flame") || mentions(caution, "candle") || mentions(caution, "light");
}

Notice caution(std::string title, std::string_view text) {
  return {Notice::Kind::Caution, std::move(title), plain(text)};
}

} // namespace

std::vector<Notice> room_cautions(const Project& project, int card) {
  std::vector<Notice> out;
  const Uses uses = uses_of(project, card);
  if (const std::string tools = tools_words(uses); !tools.empty())
    out.push_back(caution(tools + ".", "Keep fingers, hair and sleeves clear, and follow the "
                                       "instructions of their makers."));
  if (!uses.small_parts.empty())
    out.push_back(caution("Small parts.", words::sentence_case(words::listed(uses.small_parts)) +
                                              " can be swallowed: not for children under three."));
  if (!uses.lamp) return out;
  const auto own = std::ranges::find_if(project.cautions, speaks_of_light);
  out.push_back(caution("Light.", own != project.cautions.end()
                                      ? *own
                                      : std::string("Paper burns: an electric light only, never a "
                                                    "flame.")));
  out.push_back(caution("Batteries.", "Keep them from children: a swallowed button cell is an "
                                      "emergency. Follow the instructions of the maker of the "
                                      "light."));
  return out;
}

} // namespace leafwright::guide
