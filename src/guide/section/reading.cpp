#include "guide/section/reading.h"

#include "guide/figure/scenes.h"
#include "guide/prose/base.h"
#include "guide/prose/naming.h"
#include "guide/section/blocks.h"
#include "measure/index.h"

#include <algorithm>

namespace leafwright::guide {
namespace {

bool any_piece(const Project& project, bool (*has)(const Project&, const Piece&)) {
  return std::any_of(project.cards.begin(), project.cards.end(), [&](const Card& card) {
    return std::any_of(card.pieces.begin(), card.pieces.end(),
                       [&](const Piece& piece) { return has(project, piece); });
  });
}

bool upright_pattern(const Project& project, const Piece& piece) {
  return piece.stock >= 0 && as_index(piece.stock) < project.stocks.size() &&
         project.stocks[as_index(piece.stock)].upright;
}

Inlines letters_item(const Project& project) {
  Prose prose;
  prose.strong("Letters.").say(" Every piece has a letter");
  if (!project.cards.empty() && !project.cards.front().pieces.empty()) {
    const Piece& base = project.cards.front().pieces.front();
    if (!base.letter.empty()) {
      prose.say(", and keeps it: ").append(Inlines{PieceLetter{base.letter}});
      prose.say("\u00A0is the " + piece_noun(base) +
                " of card 1 in the cut list, on its sheet and in "
                "its step.");
      return prose.fragment();
    }
  }
  return prose.say(" in the cut list, and the same one on its sheet and in its step.").fragment();
}

Inlines units_item(const Project& project) {
  const bool inch = project.printing.unit == Unit::Inch;
  Prose prose;
  prose.strong("Lengths").say(inch ? " are in inches, in fractions as on a ruler; the cut list has "
                                     "millimetres beside them."
                                   : " are in millimetres; the cut list has inches beside them.");
  prose.say(
      " Sizes give the width first, then the height. The sign ≈ marks a length that is printed "
      "rounded to the nearest " +
      length_text(project.printing.step, project.printing) + ".");
  return prose.fragment();
}

List signs(const Project& project) {
  List list;
  list.items.push_back(letters_item(project));
  list.items.push_back(units_item(project));
  list.items.push_back(
      Prose()
          .strong("Arrows with a number")
          .say(" are measures. A thick outline in the colour of this booklet is the "
               "piece that the step adds.")
          .fragment());
  if (std::any_of(project.cards.begin(), project.cards.end(), has_fold))
    list.items.push_back(Prose()
                             .strong("Dash and dot")
                             .say(" is a score: press a line, do not cut. A valley folds towards "
                                  "you, a mountain away "
                                  "from you, as you look at the inside of the card. Where you can "
                                  "choose, let the grain "
                                  "of the card run along the fold.")
                             .fragment());
  if (any_piece(project, upright_pattern))
    list.items.push_back(
        Prose()
            .strong("An arrow on patterned paper")
            .say(" points to the top of the pattern. Such a piece is never turned on "
                 "its sheet.")
            .fragment());
  list.items.push_back(Prose()
                           .strong("Hatching")
                           .say(" on a sheet is what is left over; a size stands in what is worth "
                                "keeping.")
                           .fragment());
  list.items.push_back(
      Prose()
          .strong("One card.")
          .say(" The steps tell the making of one card. How many you make of it stands "
               "beside its title.")
          .fragment());
  return list;
}

} // namespace

Section reading_section(const Project& project) {
  Section section{"reading", "How to read this booklet", {}};
  add(section, heading(1, "reading", "How to read this booklet"));
  if (project.cards.empty() || project.cards.front().pieces.empty()) {
    add(section, signs(project));
  } else {
    Beside beside;
    beside.figure = {figure::piece(project, project.cards.front(), 0), {}, Figure::Width::Narrow};
    beside.blocks.push_back({signs(project), {}});
    add(section, std::move(beside));
  }
  add(section,
      body(plain("Print at 100 %, not fitted to the page, and hold a ruler to this bar before you "
                 "trace an outline or trust a full-size guide.")));
  add(section, ScaleBar{project.printing.unit == Unit::Inch});
  add(section, heading(2, "care", "Take care"));
  for (Notice& notice : cautions(project)) add(section, std::move(notice));
  return section;
}

} // namespace leafwright::guide
