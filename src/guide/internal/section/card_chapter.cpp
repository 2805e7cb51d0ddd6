#include "guide/sections.h"

#include "guide/figure/scenes.h"
#include "guide/internal/prose/step_words.h"
#include "guide/prose.h"
#include "language/words.h"
#include "measure/index.h"

#include <fmt/format.h>

#include <algorithm>

namespace leafwright::guide {
namespace {

std::size_t pieces_on(const Card& card, View view) {
  return as_index(std::count_if(card.pieces.begin(), card.pieces.end(), [&](const Piece& piece) {
    return piece.role != Piece::Role::Base && seen_in(card, piece.on, view);
  }));
}

Figure view_figure(figure::Scene scene, std::string_view caption) {
  return {std::move(scene), plain(caption), Figure::Width::Half};
}

// A photograph of the finished card, in the proportions of its file.
Figure photograph(const Project& project, const Card& card) {
  const Picture& picture = project.pictures[as_index(card.picture)];
  const Length width = millimetres(100);
  const Length height = picture.width_px > 0 ? width * picture.height_px / picture.width_px : width;
  Figure figure;
  figure.scene.box = {{}, {width, height}};
  figure.scene.items.emplace_back(figure::SceneImage{card.picture, figure.scene.box, {}});
  figure.scene.alternative = card.picture_words.empty()
                                 ? "Photograph of the finished card “" + card.title + "”."
                                 : card.picture_words;
  figure.caption = plain("The finished card");
  return figure;
}

std::string stock_cell(const Project& project, const Piece& piece) {
  return item_name(project, {ItemKind::Stock, piece.stock});
}

// The pieces, beside them how they lie one on the other.
void add_pieces(Section& section, const Project& project, const Card& card) {
  add(section, heading(2, card_anchor(card.id) + "-pieces", "Its pieces, layer by layer"),
      card.place);
  Table table = pieces_table(project, card);
  if (pieces_on(card, View::Front) == 0) {
    add(section, std::move(table), card.place);
  } else {
    Beside beside;
    beside.figure = view_figure(figure::exploded(project, card, View::Front), "The front");
    beside.blocks.push_back({std::move(table), card.place});
    add(section, std::move(beside), card.place);
  }
  if (pieces_on(card, View::Inside) > 1) {
    FigureRow row;
    row.figures.push_back(view_figure(figure::exploded(project, card, View::Inside), "The inside"));
    add(section, std::move(row), card.place);
  }
}

} // namespace

bool seen_in(const Card& card, const Carrier& on, View view) {
  Carrier carrier = on;
  // Down to the face that carries the pile; no pile is deeper than there are pieces.
  for (std::size_t depth = 0; carrier.kind == Carrier::Kind::Piece; ++depth) {
    const Piece* piece = piece_at(card, carrier.index);
    if (!piece || depth > card.pieces.size() || piece->role == Piece::Role::Base)
      return view == View::Front;
    carrier = piece->on;
  }
  if (carrier.kind != Carrier::Kind::Face || carrier.index < 0 ||
      as_index(carrier.index) >= card.plan.faces.size())
    return false;
  const auto& seen = card.plan.faces[as_index(carrier.index)].seen;
  return std::any_of(seen.begin(), seen.end(),
                     [&](const Face::Seen& one) { return one.view == view; });
}

bool has_something_on(const Card& card, View view) {
  const auto on = [&](const Carrier& carrier) { return seen_in(card, carrier, view); };
  return pieces_on(card, view) > 0 ||
         std::any_of(card.face_stampings.begin(), card.face_stampings.end(),
                     [&](const FaceStamping& one) { return on(one.on); }) ||
         std::any_of(card.ribbons.begin(), card.ribbons.end(),
                     [&](const RibbonUse& one) { return on(one.on); }) ||
         std::any_of(card.embellishments.begin(), card.embellishments.end(),
                     [&](const EmbellishmentUse& one) { return on(one.on); });
}

bool needs_guide(const Card& card, View view) {
  std::size_t places = 0;
  for (const Piece& piece : card.pieces) {
    if (!seen_in(card, piece.on, view) && piece.role != Piece::Role::Base) continue;
    if (piece.role == Piece::Role::Base && view != View::Front) continue;
    if (piece.role != Piece::Role::Base) ++places;
    for (const Impression& impression : piece.stamped)
      places += as_index(std::max(1, impression.times));
  }
  for (const FaceStamping& one : card.face_stampings)
    if (seen_in(card, one.on, view)) places += as_index(std::max(1, one.impression.times));
  constexpr std::size_t by_eye = 2; // a panel, and one image on it
  return has_something_on(card, view) && places > by_eye;
}

std::string card_aside(const Project& project, const Card& card) {
  constexpr const char* dot = " · ";
  std::string words = "Make\u00A0" + words::count_words(std::max(1, project.run.of_each));
  if (card.minutes > 0) words += dot + time_words(card.minutes);
  words += dot + form_words(card.form) + ", ";
  words +=
      card.size_name.empty() ? size_text(card.finished, project.printing, true) : card.size_name;
  if (!card.level.empty()) words += dot + card.level;
  return words;
}

Table pieces_table(const Project& project, const Card& card) {
  Table table;
  table.caption = "Pieces of “" + card.title + "”";
  table.columns = {{{}, Column::Align::Centre, 0.3, false},
                   {plain("Piece and paper"), Column::Align::Left, 2.0, true},
                   {plain("Finished size"), Column::Align::Left, 1.2, false}};
  for (const Piece& piece : card.pieces) {
    Row row;
    row.cells.push_back(piece.letter.empty() ? Inlines{} : Inlines{PieceLetter{piece.letter}});
    Inlines name = plain(words::sentence_case(piece_noun(piece)));
    if (piece.copies > 1) name.emplace_back(Words{fmt::format(" (\u00D7\u00A0{})", piece.copies)});
    name.emplace_back(Words{", " + stock_cell(project, piece), Words::Style::Quiet});
    row.cells.push_back(std::move(name));
    row.cells.push_back(plain(piece_size_words(project, piece.shape, piece.size)));
    table.rows.push_back(std::move(row));
  }
  return table;
}

FigureRow finished_views(const Project& project, const Card& card) {
  FigureRow row;
  row.leads = true;
  row.figures.push_back(view_figure(figure::finished(project, card, View::Front), "Front"));
  // An empty inside tells nothing, unless the way the card opens is the point of it.
  const Size inside = card.plan.inside_view;
  const bool opens = inside.width > Length{} && inside.height > Length{};
  if (opens && (has_something_on(card, View::Inside) || card.plan.scores.size() > 1))
    row.figures.push_back(view_figure(figure::finished(project, card, View::Inside), "Inside"));
  if (has_something_on(card, View::Back))
    row.figures.push_back(view_figure(figure::finished(project, card, View::Back), "Back"));
  if (card.envelope >= 0)
    row.figures.push_back(view_figure(figure::finished_envelope(project, card), "Envelope"));
  return row;
}

Section card_section(const Project& project, int index, bool guides_apart,
                     supply::PartsReady ready) {
  const Card& card = project.cards.at(as_index(index));
  const StepContext context{project, card, guides_apart, ready};
  const std::string anchor = card_anchor(card.id);
  Section section{anchor, card.title, {}};
  Heading title =
      heading(1, anchor, card.title, std::to_string(index + 1), card_aside(project, card));
  title.link = "Card " + title.number + ", " + card.title;
  add(section, std::move(title), card.place);
  if (Inlines intro = author_text(context, card.intro); !intro.empty())
    add(section, lead(std::move(intro)), card.place);
  add(section, finished_views(project, card), card.place);
  if (card.picture >= 0 && as_index(card.picture) < project.pictures.size())
    add(section, photograph(project, card), card.place);
  add_pieces(section, project, card);
  add(section, heading(2, anchor + "-steps", "Step by step"), card.place);
  add(section, steps_of(context, anchor), card.place);
  for (const AuthorText& tip : card.tips)
    add(section, Notice{Notice::Kind::Tip, "Tip.", author_text(context, tip)}, card.place);
  return section;
}

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
