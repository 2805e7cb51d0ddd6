#include "guide/tutorial.h"

#include "guide/figure/scenes.h"
#include "guide/internal/handout/class_counts.h"
#include "guide/internal/prose/step_words.h"
#include "guide/prose.h"
#include "guide/sections.h"
#include "language/words.h"
#include "model/form.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace leafwright::guide {
namespace {

constexpr int note_lines = 3;

std::string score_cell(const Project& project, const Card& card, const Piece& piece) {
  const std::vector<Score>& scores = scores_of(card, piece);
  std::vector<std::string> at;
  at.reserve(scores.size());
  for (const Score& one : scores) at.push_back(length_text(one.at, project.printing));
  return words::listed(at);
}

// Letter, piece and paper, the size to cut in both units, the finished size of what is cut larger
// first, where it is scored.
Table sizes_table(const Project& project, const Card& card) {
  Table table;
  table.caption = "Pieces of “" + card.title + "”";
  const bool inch = project.printing.unit == Unit::Inch;
  const bool blanks = any_blank(card);
  // Most cards score their base only: a column of its own would stand empty beside the others.
  const bool scored = std::ranges::count_if(card.pieces, [&](const Piece& piece) {
                        return !score_cell(project, card, piece).empty();
                      }) > 1;
  table.columns = {{{}, Column::Align::Centre, 0.3, false},
                   {plain("Piece and paper"), Column::Align::Left, 2.0, true},
                   {plain(blanks ? "Cut" : "Size"), Column::Align::Left, 1.2, false},
                   {plain(inch ? "In mm" : "In inches"), Column::Align::Left, 1.0, false}};
  if (blanks) table.columns.push_back({plain("Finished"), Column::Align::Left, 1.0, false});
  if (scored) table.columns.push_back({plain("Score at"), Column::Align::Left, 0.8, false});
  for (const Piece& piece : card.pieces) {
    Row row;
    row.cells.push_back(piece.letter.empty() ? Inlines{} : Inlines{PieceLetter{piece.letter}});
    Inlines name = plain(words::sentence_case(piece_noun(piece)));
    if (piece.copies > 1) name.emplace_back(Words{fmt::format(" (×\u00A0{})", piece.copies)});
    name.emplace_back(
        Words{", " + item_name(project, {ItemKind::Stock, piece.stock}), Words::Style::Quiet});
    row.cells.push_back(std::move(name));
    Inlines size = plain(cut_size_words(project, piece));
    if (const std::string at = score_cell(project, card, piece); !scored && !at.empty())
      size.emplace_back(Words{", score at " + at, Words::Style::Quiet});
    row.cells.push_back(std::move(size));
    row.cells.push_back(plain(other_size_text(supply::rectangle_of(piece), project.printing)));
    if (blanks) row.cells.push_back(plain(finished_size_words(project, piece)));
    if (scored) row.cells.push_back(plain(score_cell(project, card, piece)));
    table.rows.push_back(std::move(row));
  }
  return table;
}

// The steps of the booklet without their drawings: what is needed, and what is done.
List brief_steps(const Steps& steps) {
  List list;
  list.numbered = true;
  for (const Step& step : steps.steps) {
    Inlines item;
    item.emplace_back(Words{step.title + ". ", Words::Style::Strong});
    for (const Inlines& paragraph : step.text) {
      item.insert(item.end(), paragraph.begin(), paragraph.end());
      item.emplace_back(Words{" "});
    }
    if (const auto* last = std::get_if<Words>(&item.back()); last != nullptr && last->text == " ")
      item.pop_back();
    list.items.push_back(std::move(item));
  }
  return list;
}

// The table says what the letters stand for: without names the drawing is twice as large.
figure::Scene lettered(figure::Scene scene) {
  for (figure::Label& label : scene.labels) {
    if (!label.letter.empty())
      label.lines.clear();
    else if (label.lines.size() > 1)
      label.lines.resize(1);
  }
  return scene;
}

// Each once, however many steps call for it.
std::vector<Notice> cautions_of(const Steps& steps) {
  std::vector<Notice> found;
  for (const Step& step : steps.steps)
    for (const Notice& notice : step.notices) {
      if (notice.kind != Notice::Kind::Caution) continue;
      const bool said = std::ranges::any_of(found, [&](const Notice& other) {
        return other.title == notice.title && spoken(other.text) == spoken(notice.text);
      });
      if (!said) found.push_back(notice);
    }
  return found;
}

// What the steps say to trace, at true size: a handout is all that lies on the table.
void add_outlines(Section& section, const Project& project, const Card& card) {
  const bool inch = project.printing.unit == Unit::Inch;
  bool ruled = false;
  for (std::size_t i = 0; i < card.pieces.size(); ++i) {
    const Piece& piece = card.pieces[i];
    if (!is_traced(piece)) continue;
    if (!std::exchange(ruled, true)) add(section, ScaleBar{inch}, card.place);
    add(section,
        FullSize{figure::shape_template(project, card, i),
                 words::sentence_case(piece_noun(piece)) + ", full size",
                 {},
                 outline_anchor(card, piece)},
        piece.place);
  }
}

Section card_handout(const Project& project, const supply::CuttingPlan& sheets, std::size_t index,
                     const HandoutOptions& options) {
  const Card& card = project.cards[index];
  StepContext context{project, card, true};
  context.drawn = false;
  const std::string anchor = card_anchor(card.id);
  Section section{anchor, card.title, {}};
  add(section, heading(1, anchor, card.title, std::to_string(index + 1), card_aside(project, card)),
      card.place);
  Beside front;
  front.figure = {figure::finished(project, card, View::Front), {}, Figure::Width::Narrow};
  front.blocks.push_back({sizes_table(project, card), card.place});
  add(section, std::move(front), card.place);
  const Steps steps = steps_of(context, anchor);
  // Before the steps: who reads on while working is warned in time.
  for (Notice& notice : cautions_of(steps)) add(section, std::move(notice), card.place);
  for (Notice& notice : room_cautions(project, static_cast<int>(index)))
    add(section, std::move(notice), card.place);
  Beside layers;
  layers.figure = {lettered(figure::exploded(project, card, View::Front)), plain("Layer by layer"),
                   Figure::Width::Narrow};
  layers.blocks.push_back({brief_steps(steps), card.place});
  add(section, std::move(layers), card.place);
  add_outlines(section, project, card);
  if (options.teacher) add_card_counts(section, project, sheets, index, class_of(project, options));
  add(section, NoteLines{"Notes", note_lines});
  return section;
}

} // namespace

Document handouts(const Project& project, const supply::CuttingPlan& sheets,
                  const HandoutOptions& options) {
  Document document;
  document.title = project.title;
  document.subject = options.teacher ? "Handouts for the teacher" : "Handouts";
  document.author = project.maker.name;
  document.language = project.language;
  document.edition = edition_words(project);
  document.created = epoch_of(project);
  document.draft = options.draft;
  if (options.teacher)
    document.sections.push_back(class_sheet(project, sheets, class_of(project, options)));
  for (std::size_t i = 0; i < project.cards.size(); ++i)
    document.sections.push_back(card_handout(project, sheets, i, options));
  return document;
}

Document one_handout(const Document& all, std::size_t section) {
  Document one = all;
  one.sections = {all.sections.at(section)};
  return one;
}

} // namespace leafwright::guide
