#include "read/internal/elements.h"

#include "measure/index.h"
#include "measure/letters.h"
#include "model/notch.h"
#include "model/technique.h"
#include "read/internal/fields.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace leafwright::reading {
namespace {

Window window_of(Resolver& resolver, int draft) {
  Context& context = resolver.context();
  const Draft& one = resolver.drafts().at(draft);
  Window window;
  window.id = one.id;
  window.place = one.element.place();
  window.die = one.item;
  window.shape = shape_of(context, one.element);
  if (one.item >= 0 && !one.element.has("shape"))
    window.shape = context.project.dies.at(as_index(one.item)).shape;
  using Measure = Resolver::Measure;
  window.size = {resolver.get(draft, Measure::Width).value_or(Length{}),
                 resolver.get(draft, Measure::Height).value_or(Length{})};
  window.at = {resolver.get(draft, Measure::X).value_or(Length{}),
               resolver.get(draft, Measure::Y).value_or(Length{})};
  return window;
}

int tool_named(const Project& project, std::string_view id) {
  const auto found = std::ranges::find(project.tools, id, &Tool::id);
  return id.empty() || found == project.tools.end()
             ? -1
             : static_cast<int>(found - project.tools.begin());
}

// `images`: of its piece, stamped before it.
std::optional<Finish> finish_of(Resolver& resolver, const Element& element, std::size_t images) {
  Context& context = resolver.context();
  const auto row = std::ranges::find_if(
      technique_rows(), [&](const TechniqueRow& one) { return element.is(one.element); });
  if (row == technique_rows().end()) return std::nullopt;
  Finish finish;
  finish.kind = row->kind;
  finish.place = element.place();
  finish.images = images;
  finish.with = words_of(element, "with");
  finish.tool = tool_named(context.project, finish.with);
  finish.area = words_of(element, "area");
  if (row->kind == Finish::Kind::EdgeInked || element.has("ink"))
    finish.ink = resolver.catalogue().index_of(context, element, "ink", ItemKind::Ink);
  if (row->kind == Finish::Kind::CornersRounded)
    finish.radius = length_of(context, element, "radius", {});
  if (row->kind == Finish::Kind::Stitched)
    finish.radius = length_of(context, element, "inset",
                              context.unit == Unit::Inch ? inches(0, 1, 8) : millimetres(3));
  if (row->kind == Finish::Kind::Torn)
    finish.edge = choice_of(context, element, "edge", torn_words, Finish::Edge::All);
  if (element.has("dry")) finish.dry = whole_number(context, element, "dry", row->dry, 0, 10'000);
  return finish;
}

// A notch opens the open side of a pocket unless another edge is said.
Window notch_of(Context& context, const Element& element, const Piece& piece) {
  using Notch = Window::Notch;
  using Where = Attach::Where;
  const Notch usual = piece.attach.where == Where::OpenLeft     ? Notch::Left
                      : piece.attach.where == Where::OpenRight  ? Notch::Right
                      : piece.attach.where == Where::OpenBottom ? Notch::Bottom
                                                                : Notch::Top;
  const Length radius = length_of(context, element, "radius",
                                  context.unit == Unit::Inch ? inches(0, 3, 8) : millimetres(10));
  Window window =
      notch_window(choice_of(context, element, "edge", notch_words, usual), radius, piece.size);
  window.place = element.place();
  return window;
}

void read_content(Resolver& resolver, int draft, Piece& piece) {
  Context& context = resolver.context();
  const Draft& one = resolver.drafts().at(draft);
  for (const Element& child : resolver.drafts().content(draft).children()) {
    if (child.is("stamp")) {
      piece.stamped.push_back(
          impression_of(resolver, child, one.card, {Draft::On::Kind::Draft, draft}));
    } else if (child.is("score")) {
      const Card& card = context.project.cards.at(as_index(one.card));
      const bool in_plan = one.kind == Draft::Kind::Base && card.form.kind == Form::Kind::Custom;
      if (!in_plan) piece.scores.push_back(score_of(context, child));
    } else if (child.is("notch")) {
      piece.windows.push_back(notch_of(context, child, piece));
    } else if (child.is("alternative")) {
      const Value words = child.prose();
      piece.alternative = words.text();
      piece.alternative_text = author_text(resolver, words, one.card);
      piece.alternative_uses = resolver.catalogue().used_in(context, child);
    } else if (auto finish = finish_of(resolver, child, piece.stamped.size())) {
      piece.finishes.push_back(std::move(*finish));
    }
  }
}

// Windows are things with names; those of the piece itself, else of the one it is like.
void read_windows(Resolver& resolver, int draft, Piece& piece) {
  const Drafts& drafts = resolver.drafts();
  const Element content = drafts.content(draft);
  int owner = draft;
  while (owner >= 0 && !(drafts.at(owner).element == content)) owner = drafts.at(owner).like;
  if (owner < 0) return;
  for (const int window : drafts.at(owner).windows)
    piece.windows.push_back(window_of(resolver, window));
}

// A die, a punch or scissors want a little more around: 1/8 in (3 mm) on each side, common
// practice.
Size blank_for(const Context& context, const Piece& piece) {
  if (piece.cut == Piece::CutBy::Trimmer) return piece.size;
  if (piece.cut == Piece::CutBy::Scissors && piece.shape.outline == Shape::Outline::Rectangle)
    return piece.size;
  const Length more = context.unit == Unit::Inch ? inches(0, 1, 4) : millimetres(6);
  return {piece.size.width + more, piece.size.height + more};
}

void read_shape(Resolver& resolver, int draft, Piece& piece) {
  Context& context = resolver.context();
  const Drafts& drafts = resolver.drafts();
  const Draft& one = drafts.at(draft);
  const Element shaped = drafts.source_of(draft, "shape");
  if (shaped.has("shape")) piece.shape = shape_of(context, shaped);
  piece.die = one.kind == Draft::Kind::Base ? -1 : one.item;
  if (piece.die >= 0 && !shaped.has("shape"))
    piece.shape = context.project.dies.at(as_index(piece.die)).shape;
  if (piece.die < 0 && !shaped.has("shape"))
    if (auto around = shape_around(resolver, draft)) piece.shape = std::move(*around);
  const Piece::CutBy usual = piece.die >= 0 ? Piece::CutBy::Die
                             : piece.shape.outline == Shape::Outline::Rectangle
                                 ? Piece::CutBy::Trimmer
                                 : Piece::CutBy::Scissors;
  const Element cut = drafts.source_of(draft, "cut");
  piece.cut = cut.has("cut") ? choice_of(context, cut, "cut", cut_words, usual) : usual;
}

void read_places(Resolver& resolver, int draft, Piece& piece) {
  using Measure = Resolver::Measure;
  const Drafts& drafts = resolver.drafts();
  const Draft& one = drafts.at(draft);
  piece.at = {resolver.get(draft, Measure::X).value_or(Length{}),
              resolver.get(draft, Measure::Y).value_or(Length{})};
  piece.at_place = piece.place;
  if (const auto places = drafts.attribute(draft, "places")) {
    piece.at_place = places->place();
    const std::vector<Point> all = resolver.points(*places, one.card);
    if (all.size() > 1) piece.more_at.assign(all.begin() + 1, all.end());
    piece.copies = static_cast<int>(all.empty() ? 1 : all.size());
    piece.position.place = piece.at_place;
    return;
  }
  const auto at = drafts.attribute(draft, "at");
  if (at) piece.at_place = at->place();
  piece.position = position_of(resolver, at, one.card);
}

} // namespace

Score score_of(Context& context, const Element& element) {
  Score score;
  score.vertical = choice_of(context, element, "along", along_words, true);
  score.mountain = choice_of(context, element, "fold", fold_words, false);
  score.at = length_of(context, element, "at", {});
  return score;
}

Carrier carrier_of(const Resolver& resolver, Draft::On on) {
  switch (on.kind) {
  case Draft::On::Kind::Face: return {Carrier::Kind::Face, on.index};
  case Draft::On::Kind::Draft: return {Carrier::Kind::Piece, resolver.drafts().at(on.index).index};
  case Draft::On::Kind::EnvelopeFront: return {Carrier::Kind::EnvelopeFront, 0};
  case Draft::On::Kind::EnvelopeInside: return {Carrier::Kind::EnvelopeInside, 0};
  }
  return {};
}

Position position_of(Resolver& resolver, const std::optional<Value>& value, int card) {
  Position position;
  if (!value) return position;
  position.place = value->place();
  const Parsed<ParsedPosition> result = parse_position(value->view());
  if (!result) return position; // noted where the place was worked out
  const ParsedPosition* parsed = &*result;
  const auto distance = [&](const Along& along, Axis axis) {
    if (along.distance.empty()) return Length{};
    const Length found = resolver.length(*value, along.distance, card, axis).value_or(Length{});
    return along.back ? -found : found;
  };
  position.dx = distance(parsed->across, Axis::Width);
  position.dy = distance(parsed->down, Axis::Height);
  if (parsed->across.kind == Along::Kind::FromNear) position.across = Position::Across::FromLeft;
  if (parsed->across.kind == Along::Kind::FromFar) position.across = Position::Across::FromRight;
  if (parsed->down.kind == Along::Kind::FromNear) position.down = Position::Down::FromTop;
  if (parsed->down.kind == Along::Kind::FromFar) position.down = Position::Down::FromBottom;
  if (parsed->over) position.over = std::string(slice(value->view(), *parsed->over));
  return position;
}

int usual_adhesive(const Project& project, bool raised) {
  using Kind = Adhesive::Kind;
  const auto first = [&](auto suits) {
    for (std::size_t i = 0; i < project.adhesives.size(); ++i)
      if (suits(project.adhesives[i].kind)) return static_cast<int>(i);
    return -1;
  };
  if (raised) return first([](Kind kind) { return kind == Kind::Foam; });
  for (const Kind wanted : {Kind::Tape, Kind::Glue, Kind::Sheet, Kind::Dots}) {
    const int found = first([&](Kind kind) { return kind == wanted; });
    if (found >= 0) return found;
  }
  return -1;
}

Attach attach_of(Resolver& resolver, int draft) {
  Context& context = resolver.context();
  const Drafts& drafts = resolver.drafts();
  Attach attach;
  const Element raised = drafts.source_of(draft, "raised");
  const auto how = raised.attribute("raised");
  const auto with = raised.attribute("with");
  if (how && how->view() == "yes") {
    attach.raised = true;
    attach.adhesive = usual_adhesive(context.project, true);
    if (attach.adhesive < 0)
      note(context, *how, "read-unknown-name", "an adhesive of kind foam in <supplies>",
           "add <adhesive id=\"foam\" kind=\"foam\" …/>");
  } else if (how && how->view() != "no") {
    attach.raised = true;
    attach.adhesive =
        resolver.catalogue().index_of(context, *how, how->view(), 0, ItemKind::Adhesive);
  } else if (with && with->view() == "nothing") {
    attach.adhesive = -1;
  } else if (with) {
    attach.adhesive =
        resolver.catalogue().index_of(context, *with, with->view(), 0, ItemKind::Adhesive);
    attach.raised =
        attach.adhesive >= 0 &&
        context.project.adhesives.at(as_index(attach.adhesive)).kind == Adhesive::Kind::Foam;
  } else {
    attach.adhesive = usual_adhesive(context.project, false);
  }
  attach.layers = whole_number(context, drafts.source_of(draft, "layers"), "layers", 1, 1, 20);
  const Element stuck = drafts.source_of(draft, "stuck");
  attach.where = choice_of(context, stuck, "stuck", stuck_words, Attach::Where::AllOver);
  if (stuck.has("stuck")) attach.where_place = stuck.attribute_place("stuck");
  if (stuck.has("stuck") && with && with->view() == "nothing")
    note(context, *stuck.attribute("stuck"), "read-either-or",
         "a piece that is stuck, or with=\"nothing\"", "delete one of the two");
  const Element amount = drafts.source_of(draft, "squares");
  if (amount.has("squares")) attach.count = whole_number(context, amount, "squares", 4, 1, 1000);
  if (amount.has("tape")) attach.length = length_of(context, amount, "tape", {});
  return attach;
}

namespace {

std::string name_of(Resolver& resolver, const Draft& one, const Piece& piece) {
  const bool base = one.kind == Draft::Kind::Base;
  const std::vector<Stock>& stocks = resolver.context().project.stocks;
  const std::string stock_name =
      base && piece.stock >= 0 ? stocks.at(as_index(piece.stock)).name : "";
  std::string usual = base && !stock_name.empty() ? stock_name + " base" : name_from_id(one.id);
  if (base && !usual.empty() && is_capital(usual.front()))
    usual.front() = small_letter(usual.front()); // within a sentence
  return words_of(one.element, "name", usual);
}

void read_layers_below(Resolver& resolver, int draft, Piece& piece) {
  const Drafts& drafts = resolver.drafts();
  const int card = drafts.at(draft).card;
  Journal& journal = resolver.context().journal;
  const auto under = drafts.attribute(draft, "under");
  if (!under) return;
  for (const ListedWord& word : listed_words(under->view())) {
    if (drafts.thing_of(card, word.text) >= 0)
      piece.layers_below.emplace_back(word.text);
    else
      journal.error("read-unknown-name", under->place(word.at, word.text.size()),
                    detail::shown(word.text), "the id of a thing on this card",
                    journal.suggestion(word.text, [&] { return drafts.thing_ids(card); }));
  }
}

} // namespace

Piece piece_of(Resolver& resolver, int draft) {
  using Measure = Resolver::Measure;
  Context& context = resolver.context();
  const Drafts& drafts = resolver.drafts();
  const Draft& one = drafts.at(draft);
  const bool base = one.kind == Draft::Kind::Base;
  Piece piece;
  piece.id = one.id;
  piece.place = one.element.place();
  piece.role = base                      ? Piece::Role::Base
               : one.element.is("band")  ? Piece::Role::Band
               : one.element.is("liner") ? Piece::Role::Liner
                                         : Piece::Role::Panel;
  const Element stocked = drafts.source_of(draft, "stock");
  if (!stocked.has("stock") && !base)
    context.journal.error("read-missing-attribute", one.element.place(),
                          fmt::format("<{}> without stock", one.element.name()),
                          "the stock it is cut from", "write stock=\"…\"");
  piece.stock = resolver.catalogue().index_of(context, stocked, "stock", ItemKind::Stock);
  piece.name = name_of(resolver, one, piece);
  if (!base) piece.on = carrier_of(resolver, one.on);
  piece.size = {resolver.get(draft, Measure::Width).value_or(Length{}),
                resolver.get(draft, Measure::Height).value_or(Length{})};
  piece.size_place = piece.place;
  for (const std::string_view name : {"size", "inset", "width", "height", "die"}) {
    const auto value = drafts.attribute(draft, name);
    if (!value) continue;
    piece.size_place = value->place();
    piece.equal_reveal_wanted = name == "inset";
    break;
  }
  read_shape(resolver, draft, piece);
  piece.cut_from = blank_for(context, piece);
  if (const auto from = drafts.attribute(draft, "cut-from")) {
    const auto w = resolver.side(*from, one.card, Axis::Width);
    const auto h = resolver.side(*from, one.card, Axis::Height);
    if (w && h) piece.cut_from = {*w, *h};
  }
  piece.rotation = angle_of(context, drafts.source_of(draft, "turn"), "turn");
  if (base) {
    piece.scores = context.project.cards.at(as_index(one.card)).plan.scores;
  } else {
    read_places(resolver, draft, piece);
    piece.attach = attach_of(resolver, draft);
    piece.may_overhang = yes_no(context, drafts.source_of(draft, "over-edge"), "over-edge", false);
  }
  read_layers_below(resolver, draft, piece);
  read_content(resolver, draft, piece);
  read_windows(resolver, draft, piece);
  return piece;
}

} // namespace leafwright::reading
