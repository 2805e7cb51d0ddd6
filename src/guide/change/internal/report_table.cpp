#include "guide/change/internal/report_parts.h"
#include "guide/prose.h"
#include "guide/sections.h"
#include "guide/shop/pattern_figure.h"
#include "guide/shop/shop_words.h"
#include "language/agreement.h"
#include "language/words.h"
#include "measure/index.h"
#include "measure/print_length.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cstdint>

namespace leafwright::guide {
namespace {

using change::Pile;
using change::TableVerdict;
using change::Use;

const supply::CutLine& old_line(const TableVerdict& verdict, int line) {
  return verdict.old_run.lines.at(as_index(line));
}
const supply::CutLine& new_line(const TableVerdict& verdict, int line) {
  return verdict.to_cut.lines.at(as_index(line));
}

std::string number_or_dash(std::int64_t n) { return n > 0 ? std::to_string(n) : "–"; }

// What happens to a pile, use by use.
Inlines doing(const ChangeStory& story, const TableVerdict& verdict, const Pile& pile) {
  const Printing& how = story.after.printing;
  std::vector<std::string> parts;
  for (const Use& use : verdict.uses) {
    if (use.old_line != pile.old_line) continue;
    const bool own = use.new_line == pile.new_line;
    std::string words = refit_words(use.how, how);
    const bool plain_use = words == "use it as it is";
    if (!own) {
      const supply::CutLine& to = new_line(verdict, use.new_line);
      words = fmt::format("{}{}{} {} {}", plain_use ? "" : words, plain_use ? "" : ": ",
                          words::figured(use.count, "piece"), words::agreed("become", use.count),
                          line_words(story.after, to));
    } else if (plain_use && pile.good == pile.cut) {
      words = "keep";
    } else if (plain_use) {
      words = "keep " + std::to_string(use.count);
    } else if (use.count < pile.cut) {
      words.insert(0, words::figured(use.count, "piece") + ": ");
    }
    parts.push_back(std::move(words));
  }
  if (pile.spare > 0) parts.push_back(std::to_string(pile.spare) + " more than are needed");
  if (pile.lost > 0) {
    const std::string why = pile.new_line < 0 ? "the piece is gone" : refit_words(pile.own, how);
    parts.push_back(std::to_string(pile.lost) + " lost: " + why);
  }
  std::string text;
  for (const std::string& part : parts) text += (text.empty() ? "" : "; ") + part;
  return plain(words::sentence_case(text));
}

Inlines lettered(const std::string& letter) {
  return letter.empty() ? Inlines{} : Inlines{PieceLetter{letter}};
}

std::string name_of(const Project& project, const supply::CutLine& line) {
  if (line.piece.card < 0) return "share of a sheet";
  const Card& card = project.cards.at(as_index(line.piece.card));
  std::string name = piece_noun(card.pieces.at(as_index(line.piece.piece)));
  if (project.cards.size() > 1) name += " of card\u00A0" + std::to_string(line.piece.card + 1);
  return name;
}

Table pile_table(const ChangeStory& story, const TableVerdict& verdict) {
  Table table;
  table.caption = "Pieces already cut that need a hand";
  table.columns = {{{}, Column::Align::Centre, 0.3, false},
                   {plain("Piece"), Column::Align::Left, 1.6, true},
                   {plain("Cut"), Column::Align::Right, 0.4, false},
                   {plain("Good"), Column::Align::Right, 0.4, false},
                   {plain("To trim"), Column::Align::Right, 0.4, false},
                   {plain("Lost"), Column::Align::Right, 0.4, false},
                   {plain("What to do"), Column::Align::Left, 2.6, false}};
  for (const Pile& pile : verdict.piles) {
    if (pile.good == pile.cut &&
        std::none_of(verdict.uses.begin(), verdict.uses.end(), [&](const Use& use) {
          return use.old_line == pile.old_line &&
                 (use.new_line != pile.new_line || use.how.turned || use.how.new_scores > 0 ||
                  use.how.new_windows > 0);
        }))
      continue;
    const supply::CutLine& line = old_line(verdict, pile.old_line);
    Row row;
    row.cells = {lettered(line.letter),
                 plain(words::sentence_case(name_of(story.before, line))),
                 plain(std::to_string(pile.cut)),
                 plain(number_or_dash(pile.good + pile.spare)),
                 plain(number_or_dash(pile.trimmed)),
                 plain(number_or_dash(pile.lost)),
                 doing(story, verdict, pile)};
    table.rows.push_back(std::move(row));
  }
  return table;
}

// The rest: one sentence, so that no good pile is looked at twice.
std::string kept_words(const TableVerdict& verdict) {
  std::vector<std::string> letters;
  std::int64_t pieces = 0;
  for (const Pile& pile : verdict.piles) {
    const bool elsewhere =
        std::any_of(verdict.uses.begin(), verdict.uses.end(), [&](const Use& use) {
          return use.old_line == pile.old_line && use.new_line != pile.new_line;
        });
    if (pile.good != pile.cut || elsewhere) continue;
    const std::string& letter = old_line(verdict, pile.old_line).letter;
    pieces += pile.cut;
    if (std::find(letters.begin(), letters.end(), letter) == letters.end())
      letters.push_back(letter);
  }
  if (letters.empty()) return {};
  return "Still good as they are: " + words::listed(letters) + ", " +
         words::figured(pieces, "piece") + " in all.";
}

// Whether some of it were cut before the change.
bool was_cut(const TableVerdict& verdict, const change::Wanted& want) {
  return std::any_of(verdict.piles.begin(), verdict.piles.end(), [&](const Pile& pile) {
    return pile.new_line == want.new_line && pile.cut > 0;
  });
}
// Pieces to cut of which some lay cut, and those of which none did.
struct ToCut {
  std::int64_t again = 0, first = 0;
};
ToCut to_cut(const TableVerdict& verdict) {
  ToCut pieces;
  for (const change::Wanted& want : verdict.wanted)
    (was_cut(verdict, want) ? pieces.again : pieces.first) +=
        std::max<std::int64_t>(want.to_cut, 0);
  return pieces;
}

Table recut_table(const ChangeStory& story, const TableVerdict& verdict) {
  Table table;
  table.caption = "What to cut again";
  table.columns = {{{}, Column::Align::Centre, 0.3, false},
                   {plain("Piece"), Column::Align::Left, 2.0, true},
                   {plain("Size"), Column::Align::Left, 1.2, false},
                   {plain("Paper"), Column::Align::Left, 1.2, false},
                   {plain("Needed"), Column::Align::Right, 0.5, false},
                   {plain("Have"), Column::Align::Right, 0.5, false},
                   {plain("Cut"), Column::Align::Right, 0.5, false}};
  std::int64_t all = 0;
  // What the change took comes first: the rest was still to be cut anyway.
  const ToCut pieces = to_cut(verdict);
  const auto group = [&](const char* words) {
    if (pieces.again > 0 && pieces.first > 0)
      table.rows.push_back({Row::Kind::Group, {plain(words)}, false});
  };
  const auto add_row = [&](const change::Wanted& want) {
    const supply::CutLine& line = new_line(verdict, want.new_line);
    Row row;
    row.cells = {lettered(line.letter),
                 plain(words::sentence_case(name_of(story.after, line))),
                 plain(unrounded(line.rectangle, story.after.printing)),
                 plain(item_name(story.after, {ItemKind::Stock, line.stock})),
                 plain(std::to_string(want.needed)),
                 plain(number_or_dash(want.good + want.trimmed)),
                 strong(std::to_string(want.to_cut))};
    table.rows.push_back(std::move(row));
    all += want.to_cut;
  };
  for (const bool again : {true, false}) {
    group(again ? "Cut before, and now too few" : "Not cut yet");
    for (const change::Wanted& want : verdict.wanted)
      if (want.to_cut > 0 && was_cut(verdict, want) == again) add_row(want);
  }
  Row total{Row::Kind::Total, std::vector<Inlines>(table.columns.size())};
  total.cells[1] = plain("All together");
  total.cells[6] = plain(std::to_string(all));
  table.rows.push_back(std::move(total));
  return table;
}

void add_patterns(Section& section, const ChangeStory& story, const TableVerdict& verdict) {
  for (const supply::StockSheets& stock : verdict.to_cut.stocks) {
    const std::string name = item_name(story.after, {ItemKind::Stock, stock.stock});
    add(section, heading(2, "recut-" + story.after.stocks.at(as_index(stock.stock)).id, name));
    add(section, small(plain(words::sentence_case(stock.words) + ".")));
    for (const supply::SheetLayout& pattern : stock.layouts) {
      Beside beside;
      beside.figure = {
          pattern_scene(story.after, verdict.to_cut, pattern), {}, Figure::Width::Half};
      const std::string what =
          words::figured(pattern.times, pattern.offcut() ? "offcut" : "sheet") + ", " +
          (pattern.offcut() ? unrounded(pattern.sheet, story.after.printing)
                            : sheet_name(story.after, stock.stock, pattern.offer));
      beside.blocks.push_back({heading(3, {}, what), {}});
      List order = cutting_order(story.after, verdict.to_cut, pattern);
      if (!order.items.empty()) beside.blocks.push_back({std::move(order), {}});
      add(section, std::move(beside));
    }
  }
}

} // namespace

std::string line_words(const Project& project, const supply::CutLine& line) {
  return "(" + line.letter + ")\u00A0" + name_of(project, line);
}

std::string recut_words(const Project& project, const supply::CuttingPlan& run) {
  std::vector<std::string> parts;
  for (const supply::StockSheets& stock : run.stocks) {
    std::vector<std::string> counts;
    if (stock.sheets > 0) counts.push_back(words::figured(stock.sheets, "sheet"));
    if (stock.offcuts > 0) counts.push_back(words::figured(stock.offcuts, "offcut"));
    parts.push_back(words::listed(counts) + " of " +
                    item_name(project, {ItemKind::Stock, stock.stock}));
  }
  return words::listed(parts);
}

std::string table_sentence(const ChangeStory& story) {
  if (!story.comparison.table) return {};
  const TableVerdict& verdict = *story.comparison.table;
  std::int64_t cut = 0;
  for (const Pile& pile : verdict.piles) cut += pile.cut;
  if (cut == 0 && verdict.recut == 0) return {};
  std::vector<std::string> parts;
  const auto are = [](std::int64_t n) { return std::to_string(n) + " " + words::agreed("be", n); };
  parts.push_back(are(verdict.good + verdict.spare) + " still good");
  if (verdict.trimmed > 0) parts.push_back(std::to_string(verdict.trimmed) + " can be trimmed");
  if (verdict.lost > 0) parts.push_back(are(verdict.lost) + " lost");
  std::string text;
  if (cut > 0)
    text = "Of the " + words::figured(cut, "piece") + " you've cut, " + words::listed(parts) + ". ";
  if (verdict.recut == 0) return text + "You don't need to cut any again.";
  const ToCut pieces = to_cut(verdict);
  if (pieces.again > 0) {
    text += "Cut " + std::to_string(pieces.again) + " again";
    if (pieces.first > 0)
      text += ", and " + words::figured(pieces.first, "piece") + " for the first time";
  } else {
    text += "Cut " + words::figured(pieces.first, "piece");
  }
  return text + ", from " + recut_words(story.after, verdict.to_cut) + ".";
}

Section table_section(const ChangeStory& story) {
  Section section{"change-table", "On the table", {}};
  if (!story.comparison.table) return section;
  const TableVerdict& verdict = *story.comparison.table;
  if (verdict.piles.empty() && verdict.recut == 0) return section;
  add(section, heading(1, "table", "On the table"));
  for (const std::string& die : verdict.unknown_dies)
    add(section, body(plain("No die has the id “" + die + "” in both editions.")));
  for (const std::string& letter : verdict.unknown)
    add(section, Notice{Notice::Kind::Warning, "Not counted.",
                        plain("No piece of the older edition has the letter " + letter + ".")});
  Table piles = pile_table(story, verdict);
  if (!piles.rows.empty()) add(section, std::move(piles));
  if (const std::string kept = kept_words(verdict); !kept.empty()) add(section, body(plain(kept)));
  add(section, small(plain("A piece is good when its paper, size, outline and folds are the "
                           "same. You can trim it when the new piece fits inside the old one the "
                           "same way up, and no old fold or opening shows.")));
  if (verdict.recut == 0) return section;
  add(section, heading(2, "recut", "Cut again"));
  add(section, recut_table(story, verdict));
  add_patterns(section, story, verdict);
  return section;
}

namespace {

int number_of(const std::string& page) { // 0 where it has none
  int number = 0;
  std::from_chars(page.data(), page.data() + page.size(), number);
  return number;
}

// "3, 5–8 and 12"
std::string page_list(const std::vector<std::string>& pages) {
  std::vector<std::string> parts;
  for (std::size_t i = 0; i < pages.size();) {
    std::size_t end = i;
    while (end + 1 < pages.size() && number_of(pages[end + 1]) == number_of(pages[end]) + 1) ++end;
    parts.push_back(end > i + 1 ? pages[i] + "–" + pages[end] : pages[i]);
    if (end == i + 1) parts.push_back(pages[end]);
    i = end + 1;
  }
  return words::listed(parts);
}

} // namespace

std::string pages_sentence(const ChangeStory& story) {
  if (!story.pages) return {};
  const PageChanges& pages = *story.pages;
  std::string text;
  if (pages.changed.empty() && pages.dropped.empty()) {
    text = "No page of the tutorial changes.";
  } else {
    text = "In the tutorial, " + std::to_string(pages.changed.size()) + " of " +
           words::figured(static_cast<std::int64_t>(pages.after), "page") + " " +
           words::agreed("be", std::ssize(pages.changed)) + " new or different";
    if (!pages.changed.empty())
      text += ": " + words::noun_for(std::ssize(pages.changed), "page") + " " +
              page_list(pages.changed);
    text += ".";
  }
  if (pages.before != pages.after)
    text +=
        " It had " + words::figured(static_cast<std::int64_t>(pages.before), "page") + " before.";
  return text;
}

} // namespace leafwright::guide
