#include "guide/internal/section/chapters.h"

#include "guide/figure/scenes.h"
#include "guide/internal/prose/step_words.h"
#include "guide/prose.h"
#include "guide/sections.h"
#include "language/words.h"
#include "model/form.h"

namespace leafwright::guide {
namespace {

std::string side_words(View view) {
  switch (view) {
  case View::Front: return "front";
  case View::Inside: return "inside";
  case View::Back: return "back";
  }
  return "front";
}

// Of what a guide shows.
std::optional<Size> size_of(const figure::Scene& guide) {
  for (const figure::SceneItem& item : guide.items)
    if (const auto* mark = std::get_if<figure::SceneMark>(&item); mark && mark->kind == "template")
      return mark->box.size;
  return std::nullopt;
}

// One fold is found with a ruler; several are marked quicker from a strip, and alike on every card.
void add_gauge(Section& section, const Project& project, std::size_t index) {
  const Card& card = project.cards[index];
  if (card.pieces.empty()) return;
  const Piece& base = card.pieces.front();
  const std::vector<Score>& scores = scores_of(card, base);
  if (scores.size() < 2) return;
  Prose note;
  const bool from_left = figure::gauged_from_left(scores);
  note.say("Lay the ").say(from_left ? "left" : "top").say(" edge of ");
  note.append(Inlines{PieceLetter{base.letter}});
  note.say(from_left ? " on the heavy line and mark its folds above and below"
                     : " on the heavy line and mark its folds left and right");
  if (figure::gauged_from_both(scores, base.size))
    note.say(from_left ? ". Then do the same from its right edge"
                       : ". Then do the same from below");
  note.say(".");
  add(section,
      FullSize{figure::score_gauge(project, card, 0),
               std::to_string(index + 1) + "\u2002" + card.title + ", folds", note.fragment(),
               card_anchor(card.id) + "-guide-folds"},
      base.place);
}

void add_card(Section& section, const Project& project, std::size_t index) {
  const Card& card = project.cards[index];
  const std::string title = std::to_string(index + 1) + "\u2002" + card.title;
  add_gauge(section, project, index);
  for (const View view : {View::Front, View::Inside, View::Back}) {
    if (!needs_guide(card, view)) continue;
    figure::Scene guide = figure::placement_template(project, card, view);
    std::string words = title + ", " + side_words(view);
    if (const std::optional<Size> size = size_of(guide))
      words += ", " + size_text(*size, project.printing);
    add(section,
        FullSize{std::move(guide),
                 std::move(words),
                 {},
                 card_anchor(card.id) + "-guide-" + side_words(view)},
        card.place);
  }
  for (std::size_t i = 0; i < card.pieces.size(); ++i) {
    const Piece& piece = card.pieces[i];
    if (!is_traced(piece)) continue;
    Prose note;
    note.say("Trace ").append(Inlines{PieceLetter{piece.letter}});
    note.say(" and cut just inside the line.");
    add(section,
        FullSize{figure::shape_template(project, card, i), title + ", " + piece_noun(piece),
                 note.fragment(), outline_anchor(card, piece)},
        piece.place);
  }
}

} // namespace

Section templates_section(const Project& project) {
  Section section{templates_anchor, "Full-size guides", {}};
  Section guides;
  for (std::size_t i = 0; i < project.cards.size(); ++i) add_card(guides, project, i);
  if (guides.blocks.empty()) return section;
  add(section, heading(1, templates_anchor, "Full-size guides"));
  add(section,
      lead(plain("Print these pages at 100 % and measure the bar first. To see where a piece goes, "
                 "hold the card and the guide up to the light, or lay clear acetate over the "
                 "guide.")));
  add(section, ScaleBar{project.printing.unit == Unit::Inch});
  for (Block& block : guides.blocks) section.blocks.push_back(std::move(block));
  return section;
}

} // namespace leafwright::guide
