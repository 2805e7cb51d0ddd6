#include "guide/internal/section/chapters.h"

#include "guide/internal/prose/step_words.h"
#include "guide/prose.h"
#include "guide/sections.h"
#include "language/words.h"
#include "plan/supply/kits.h"
#include "plan/supply/needs.h"

#include <algorithm>
#include <functional>
#include <optional>
#include <vector>

namespace leafwright::guide {
namespace {

// The needs for which `cell` has something to say, group after group.
Table needs_table(const Project& project, const supply::Needs& needs, std::string caption,
                  const std::function<Inlines(const supply::Need&)>& cell) {
  Table table;
  table.caption = std::move(caption);
  table.columns = {{plain("Item"), Column::Align::Left, 3.0, true},
                   {plain("Amount"), Column::Align::Left, 1.6, false}};
  std::optional<supply::Group> group;
  for (const supply::Need& need : needs) {
    Inlines amount = cell(need);
    if (amount.empty()) continue;
    if (need.group != group) {
      group = need.group;
      table.rows.push_back({Row::Kind::Group, {plain(supply::group_words(need.group))}});
    }
    table.rows.push_back({Row::Kind::Plain, {item_cell(project, need.item), std::move(amount)}});
  }
  return table;
}

// Blanks for a die or for scissors are rectangles; what comes die-cut has its own size.
std::string size_in_envelope(const Project& project, const supply::CutLine& line,
                             const Piece& piece, const Tier& tier) {
  const bool shaped =
      piece.cut == Piece::CutBy::Die && supply::parts_ready(tier, line.piece.card).die_cut;
  return shaped ? piece_size_words(project, piece.shape, piece.size)
                : size_text(line.rectangle, project.printing);
}

void add_items_beside_cards(Table& table, const Project& project, const supply::Needs& needs,
                            const Tier& tier) {
  const std::vector<ItemRef> items = items_beside_cards(project, needs, {&tier});
  if (!items.empty()) table.rows.push_back({Row::Kind::Group, {plain(beside_cards_words)}});
  for (const ItemRef item : items)
    table.rows.push_back(
        {Row::Kind::Plain, {item_cell(project, item), beside_cards_cell(project, tier, item)}});
}

// What lies in one envelope is one row, whichever inclusions it comes from.
std::vector<supply::KitShare> shares_by_envelope(const Project& project, const Tier& tier) {
  std::vector<supply::KitShare> shares;
  for (const supply::KitShare& one : supply::shares_of(project, tier)) {
    const auto same = std::ranges::find_if(shares, [&](const supply::KitShare& other) {
      return other.letter == one.letter && other.gift == one.gift;
    });
    if (same == shares.end())
      shares.push_back(one);
    else
      same->count += one.count;
  }
  return shares;
}

// `paper_last`: the paper has a column of its own behind the size.
Row share_row(const Project& project, const supply::KitShare& share, bool paper_last) {
  const std::string paper = item_name(project, {ItemKind::Stock, share.stock});
  const std::string name = paper_last ? "Piece of a sheet" : paper;
  Row row{Row::Kind::Plain,
          {Inlines{PieceLetter{share.letter}}, plain(name + (share.gift ? " (gift)" : "")),
           plain(std::to_string(share.count)), plain(size_text(share.size, project.printing))}};
  if (paper_last) row.cells.push_back(plain(paper));
  return row;
}

Table shares_table(const Project& project, const Tier& tier) {
  Table table;
  table.caption = "Pieces of sheets, by the letter on their envelope";
  table.columns = {{{}, Column::Align::Centre, 0.3, false},
                   {plain("Paper"), Column::Align::Left, 2.7, true},
                   {plain("Pieces"), Column::Align::Right, 0.5, false},
                   {plain("Size"), Column::Align::Left, 1.2, false}};
  for (const supply::KitShare& share : shares_by_envelope(project, tier))
    table.rows.push_back(share_row(project, share, false));
  return table;
}

} // namespace

bool comes_cut(const Project& project, const Tier& tier) {
  if (!tier.parts_cut) return false;
  return std::ranges::any_of(tier.includes, [&](const Inclusion& one) {
    return one.item.kind == ItemKind::Parts &&
           (one.cards.empty() || one.cards.size() == project.cards.size());
  });
}

Section owned_supplies_section(const Project& project, const supply::Needs& needs,
                               const Tier& tier) {
  Section section{"supplies", "What you need", {}};
  add(section, heading(1, "supplies", "What you need"));
  Table came = needs_table(project, needs, "What came with your kit", [&](const auto& need) {
    return holds_some(project, tier, need) ? tier_cell(project, tier, need) : Inlines{};
  });
  add_items_beside_cards(came, project, needs, tier);
  const supply::Needs left = supply::needs_beside_parts(project, tier);
  const std::vector<supply::Shortfall> short_of = supply::shortfalls_of(project, tier);
  Table own = needs_table(project, needs, "What you add", [&](const auto& need) {
    for (const supply::Shortfall& one : short_of)
      if (need.item == ItemRef{ItemKind::Stock, one.stock})
        return plain(words::figured(one.sheets, "sheet") + " more");
    const bool done = supply::find(left, need.item) == nullptr;
    return done || holds_some(project, tier, need) ? Inlines{} : plain(amount_words(project, need));
  });
  const bool nothing_came = came.rows.empty();
  add(section,
      lead(plain(
          nothing_came
              ? "You have the tutorial, and here is what the cards take. You keep the stamps, "
                "dies, inks and tools. The cards use up the rest."
              : "Lay out what came with your kit, and add what is yours. You keep the stamps, "
                "dies, inks and tools. The cards use up the rest.")));
  if (!nothing_came) {
    add(section, heading(2, "supplies-came", "What came with your kit"));
    add(section, std::move(came));
  }
  // Beside cut parts they stand among the envelopes.
  if (Table shares = shares_table(project, tier); !shares.rows.empty() && !comes_cut(project, tier))
    add(section, std::move(shares));
  if (!own.rows.empty()) {
    add(section, heading(2, "supplies-own", nothing_came ? "For one set" : "What you add"));
    add(section, std::move(own));
  }
  return section;
}

namespace {

std::string comes_words(const Project& project, const Tier& tier) {
  return tier.die_cut && supply::cuts_with_a_die(project)
             ? "Your paper comes cut, with the shapes and windows die cut. "
             : "Your paper comes cut. ";
}

// Pieces of sheets in envelopes of their own.
void add_share_rows(Table& table, const Project& project, const Tier& tier) {
  const std::vector<supply::KitShare> shares = shares_by_envelope(project, tier);
  if (shares.empty()) return;
  table.rows.push_back({Row::Kind::Group, {plain("Pieces of sheets, to use as you like")}});
  for (const supply::KitShare& share : shares)
    table.rows.push_back(share_row(project, share, true));
}

Table envelopes_table(const Project& project, const supply::CuttingPlan& sheets, const Tier& tier) {
  Table table;
  table.caption = "Parts of the kit, by card";
  table.columns = {{{}, Column::Align::Centre, 0.3, false},
                   {plain("Part"), Column::Align::Left, 2.0, true},
                   {plain("In the envelope"), Column::Align::Right, 0.8, false},
                   {plain("Size"), Column::Align::Left, 1.2, false},
                   {plain("Paper"), Column::Align::Left, 1.4, false}};
  for (std::size_t i = 0; i < project.cards.size(); ++i) {
    const Card& card = project.cards[i];
    bool headed = false;
    for (const supply::CutLine& line : sheets.lines) {
      const Piece* piece = piece_at(card, line.piece.piece);
      if (line.piece.card != static_cast<int>(i) || piece == nullptr) continue;
      if (!supply::parts_ready(tier, line.piece.card).cut) continue;
      if (!headed && project.cards.size() > 1)
        table.rows.push_back(
            {Row::Kind::Group, {plain(std::to_string(i + 1) + "\u2002" + card.title)}});
      headed = true;
      table.rows.push_back(
          {Row::Kind::Plain,
           {line.letter.empty() ? Inlines{} : Inlines{PieceLetter{line.letter}},
            plain(words::sentence_case(piece_noun(*piece))), plain(std::to_string(line.per_kit)),
            plain(size_in_envelope(project, line, *piece, tier)),
            plain(item_name(project, {ItemKind::Stock, line.stock}))}});
    }
  }
  add_share_rows(table, project, tier);
  return table;
}

} // namespace

Section envelopes_section(const Project& project, const supply::CuttingPlan& sheets,
                          const Tier& tier) {
  Section section{"cut-list", "Your envelopes", {}};
  add(section, heading(1, "cut-list", "Your envelopes"));
  add(section, lead(plain(comes_words(project, tier) +
                          "Each piece is in the envelope with its letter, and the steps "
                          "use the same letter.")));
  add(section, envelopes_table(project, sheets, tier));
  return section;
}

Section letters_section(const Project& project, const supply::CuttingPlan& sheets,
                        const Tier& tier) {
  Section section{"letters", "Which letter is which", {}};
  add(section, heading(1, "letters", "Which letter is which", {}, project.title));
  add(section, lead(plain(comes_words(project, tier) +
                          "Each kind of part lies in an envelope with its letter. Find the letter "
                          "here, and you know the part, its size and its card.")));
  add(section, envelopes_table(project, sheets, tier));
  return section;
}

Section class_section(const Project& project, const supply::Needs& one, int students) {
  Section section{"class", "For a class", {}};
  const std::string count = words::count_words(students);
  add(section, heading(1, "class", "For a class of " + count));
  add(section,
      lead(
          plain("Everyone makes one kit. The sheets are counted for the whole class at once, often "
                "fewer than kit by kit. Share the stamps, dies, inks and tools: one of each for "
                "every two or three people.")));
  supply::Needs all = supply::needs_of_kit(project, students);
  supply::add_sheets(all, supply::fewest_sheets_for(project, students));
  Table table;
  table.caption = "What one kit and a class of " + count + " take";
  table.columns = {
      {plain("Item"), Column::Align::Left, 3.0, true},
      {plain("One kit"), Column::Align::Right, 1.0, false},
      {plain(words::sentence_case(count) + " kits"), Column::Align::Right, 1.0, false}};
  std::optional<supply::Group> group;
  for (const supply::Need& need : all) {
    const supply::Need* single = supply::find(one, need.item);
    if (!need.consumed || single == nullptr) continue;
    if (need.group != group) {
      group = need.group;
      table.rows.push_back({Row::Kind::Group, {plain(supply::group_words(need.group))}});
    }
    table.rows.push_back({Row::Kind::Plain,
                          {item_cell(project, need.item), plain(amount_words(project, *single)),
                           plain(amount_words(project, need))}});
  }
  add(section, std::move(table));
  return section;
}

} // namespace leafwright::guide
