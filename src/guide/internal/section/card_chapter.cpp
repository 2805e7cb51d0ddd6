#include "guide/sections.h"

#include "guide/figure/scenes.h"
#include "guide/internal/prose/step_words.h"
#include "guide/internal/section/chapters.h"
#include "guide/prose.h"
#include "language/english.h"
#include "language/lists.h"
#include "language/words.h"
#include "measure/index.h"
#include "model/carrier.h"
#include "model/form.h"
#include "model/technique.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

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

bool is_decorated_envelope(const Card& card) {
  return std::ranges::any_of(card.pieces,
                             [](const Piece& piece) { return is_envelope(piece.on); }) ||
         std::ranges::any_of(card.face_stampings,
                             [](const FaceStamping& one) { return is_envelope(one.on); });
}

// ", and 10 min to dry"; empty when nothing has to.
std::string drying_words(const Card& card) {
  const int minutes = drying_minutes(card);
  return minutes > 0 ? ", and " + time_words(minutes) + " to dry" : std::string();
}

// What is worth knowing before one begins.
Table facts_table(const Project& project, const Card& card) {
  Table table;
  table.caption = "About “" + card.title + "”";
  table.columns = {{{}, Column::Align::Left, 0.0, true}, {{}, Column::Align::Left, 1.0, false}};
  const auto fact = [&](std::string_view name, const std::string& words) {
    if (!words.empty()) table.rows.push_back({Row::Kind::Plain, {strong(name), plain(words)}});
  };
  fact("Make", words::count_words(std::max(1, project.run.of_each)));
  if (card.minutes > 0)
    fact("Time",
         time_words(card.minutes) + (project.run.of_each > 1 ? " each" : "") + drying_words(card));
  fact("Level", card.level.empty() ? project.level : card.level);
  fact("Form", form_words(card.form));
  fact("Size", (card.size_name.empty() ? "" : card.size_name + ", ") +
                   size_text(card.finished, project.printing));
  fact("Skills", skills_words(project, card));
  return table;
}

// The page on which a chapter begins: the card when it is done, beside it what to know of it.
Beside opening(const Project& project, const Card& card) {
  Beside block;
  block.opens = true;
  std::vector<Figure> views = finished_views(project, card);
  if (card.picture >= 0 && as_index(card.picture) < project.pictures.size())
    views.insert(views.begin(), photograph(project, card));
  block.figure = std::move(views.front());
  block.blocks.push_back({facts_table(project, card), card.place});
  FigureRow others;
  others.figures.assign(std::make_move_iterator(views.begin() + 1),
                        std::make_move_iterator(views.end()));
  for (Figure& figure : others.figures) figure.width = Figure::Width::Narrow;
  if (!others.figures.empty()) block.blocks.push_back({std::move(others), card.place});
  return block;
}

// Tips of the whole card stand beside its steps: with the last, where the card is in hand.
void add_tips(Steps& steps, const StepContext& context) {
  if (steps.steps.empty()) return;
  for (const AuthorText& tip : context.card.tips)
    steps.steps.back().notices.push_back({Notice::Kind::Tip, "Tip.", author_text(context, tip)});
}

} // namespace

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

namespace {

// Off the middle both ways, and over nothing that shows where it goes.
bool takes_two_measures(const Position& position) {
  const bool across = position.across != Position::Across::Centre || position.dx.nm != 0;
  const bool down = position.down != Position::Down::Centre || position.dy.nm != 0;
  return across && down && position.over.empty();
}

} // namespace

bool needs_guide(const Card& card, View view) {
  // What lies straight and in the middle, or in a row, is laid by its measures. A guide is for
  // what is turned, and for many things that stand off the middle.
  int off_middle = 0;
  bool turned = false;
  const auto count = [&](const Position& position, Angle rotation, std::size_t places) {
    turned = turned || rotation.udeg % degrees(90).udeg != 0;
    if (takes_two_measures(position)) off_middle += places > 1 ? 2 : 1;
  };
  for (const Piece& piece : card.pieces) {
    if (!seen_in(card, piece.on, view) || piece.role == Piece::Role::Base) continue;
    count(piece.position, piece.rotation, 1 + piece.more_at.size());
    for (const Impression& impression : piece.stamped)
      count(impression.position, impression.rotation, impression.places.size());
  }
  for (const FaceStamping& one : card.face_stampings)
    if (seen_in(card, one.on, view))
      count(one.impression.position, one.impression.rotation, one.impression.places.size());
  constexpr int by_ruler = 3;
  return has_something_on(card, view) && off_middle > (turned ? 1 : by_ruler);
}

std::string skills_words(const Project& project, const Card& card) {
  std::vector<std::string> skills;
  const bool british = words::english_of(project.language) == words::English::British;
  const auto learn = [&](std::string words) {
    if (std::ranges::find(skills, words) == skills.end()) skills.push_back(std::move(words));
  };
  const auto stamp = [&](const Impression& one) {
    using enum Impression::Method;
    if (one.fading || one.method == SecondGeneration)
      learn("stamping off");
    else if (one.method == Sponged)
      learn("sponging");
    else if (one.method == Masked)
      learn("masking");
    else if (one.method == HeatEmbossed)
      learn("heat embossing");
    else
      learn("stamping");
  };
  for (const Piece& piece : card.pieces) {
    for (const Impression& one : piece.stamped) stamp(one);
    if (piece.cut == Piece::CutBy::Die || !piece.windows.empty()) learn("die cutting");
    for (const Finish& finish : piece.finishes)
      if (const TechniqueRow& row = technique_row(finish.kind); row.named_skill)
        learn(std::string(british && !row.british.empty() ? row.british : row.words));
  }
  for (const FaceStamping& one : card.face_stampings) stamp(one.impression);
  for (const RibbonUse& use : card.ribbons)
    learn(use.as == RibbonUse::As::Bow ? "bow" : use.as == RibbonUse::As::Knot ? "knot" : "ribbon");
  return words::series(skills);
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

std::vector<Figure> finished_views(const Project& project, const Card& card) {
  std::vector<Figure> views;
  views.push_back(view_figure(figure::finished(project, card, View::Front), ""));
  // An empty inside tells nothing, unless the way the card opens is the point of it.
  const Size inside = card.plan.inside_view;
  const bool opens = inside.width > Length{} && inside.height > Length{};
  if (opens && (has_something_on(card, View::Inside) || card.plan.scores.size() > 1))
    views.push_back(view_figure(figure::finished(project, card, View::Inside), "Inside"));
  if (has_something_on(card, View::Back))
    views.push_back(view_figure(figure::finished(project, card, View::Back), "Back"));
  if (card.envelope >= 0 && is_decorated_envelope(card))
    views.push_back(view_figure(figure::finished_envelope(project, card), "Envelope"));
  return views;
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
  add(section, opening(project, card), card.place);
  add(section, Figure{figure::tray(project, card), {}, Figure::Width::Full}, card.place);
  add(section, PageBreak{});
  Steps steps = steps_of(context, anchor);
  add_tips(steps, context);
  add(section, std::move(steps), card.place);
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

Inlines letters_item(const Project& project, bool cut) {
  const std::string look = cut ? "Look for it on its envelope and in the step."
                               : "Look for it in the cut list, on the sheet and in the step.";
  Prose prose;
  prose.strong("Letters.").say(" Every piece has a letter");
  if (!project.cards.empty() && !project.cards.front().pieces.empty()) {
    const Piece& base = project.cards.front().pieces.front();
    if (!base.letter.empty()) {
      prose.say(": ").append(Inlines{PieceLetter{base.letter}});
      prose.say("\u00A0is the " + piece_noun(base) + " of card 1. " + look);
      return prose.fragment();
    }
  }
  return prose.say(". " + look).fragment();
}

Inlines units_item(const Project& project) {
  const bool inch = project.printing.unit == Unit::Inch;
  Prose prose;
  const bool both = project.printing.print_other;
  const std::string millimeters(words::terms(project.language).millimeters);
  prose.strong("Lengths").say(inch ? " are in inches, with fractions as on your ruler"
                                   : " are in " + millimeters);
  prose.say(both ? ", with " + (inch ? millimeters : "inches") + " beside them in the cut list."
                 : std::string("."));
  prose.say(" The width comes first, then the height. The sign ≈ means rounded to the nearest " +
            length_text(project.printing.step, project.printing) + ".");
  return prose.fragment();
}

List signs(const Project& project, bool cut) {
  List list;
  list.items.push_back(letters_item(project, cut));
  list.items.push_back(units_item(project));
  list.items.push_back(
      Prose()
          .strong("Arrows with a number")
          .say(" are measurements. A thick outline shows the piece that you add in this step.")
          .fragment());
  if (std::any_of(project.cards.begin(), project.cards.end(), has_fold))
    list.items.push_back(Prose()
                             .strong("Dash and dot")
                             .say(" is a score line: press it, do not cut it. With the inside of "
                                  "the card facing you, a valley fold comes up and a mountain fold "
                                  "goes back. When you can choose, run the grain along the fold.")
                             .fragment());
  if (!cut && any_piece(project, upright_pattern))
    list.items.push_back(
        Prose()
            .strong("An arrow on patterned paper")
            .say(" points to the top of the pattern. Do not turn that piece on its sheet.")
            .fragment());
  list.items.push_back(
      Prose()
          .strong("One card.")
          .say(" The steps make one card. The number beside the title says how many to make.")
          .fragment());
  return list;
}

} // namespace

Section reading_section(const Project& project, const Tier* tier) {
  Section section{"reading", "How to read this booklet", {}};
  add(section, heading(1, "reading", "How to read this booklet"));
  add(section, signs(project, tier != nullptr && comes_cut(project, *tier)));
  add_methods(section, project);
  add(section, heading(2, "care", "Take care"));
  for (Notice& notice : cautions(project, tier)) add(section, std::move(notice));
  add_images(section, project);
  return section;
}

} // namespace leafwright::guide
