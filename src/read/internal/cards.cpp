#include "read/internal/elements.h"

#include "measure/index.h"
#include "measure/letters.h"
#include "model/form.h"
#include "read/internal/fields.h"

#include <fmt/format.h>

#include <array>

namespace leafwright::reading {
namespace {

// A to Z, then AA, AB …, as columns of a table are lettered; without I, O and Q, which pass for 1,
// 0 and each other when they are written on an envelope in a hurry.
std::string letter_of(std::size_t number) {
  constexpr std::string_view alphabet = "ABCDEFGHJKLMNPRSTUVWXYZ";
  std::string letters;
  for (std::size_t rest = number + 1; rest > 0; rest = (rest - 1) / alphabet.size())
    letters.insert(letters.begin(), alphabet[(rest - 1) % alphabet.size()]);
  return letters;
}

RibbonUse ribbon_of(Resolver& resolver, int draft) {
  using Measure = Resolver::Measure;
  Context& context = resolver.context();
  const Draft& one = resolver.drafts().at(draft);
  RibbonUse use;
  use.id = one.id;
  use.place = one.element.place();
  use.ribbon = one.item;
  use.as = choice_of(context, one.element, "as", as_words, RibbonUse::As::Band);
  use.on = carrier_of(resolver, one.on);
  use.vertical = choice_of(context, one.element, "along", along_words, false);
  use.at = resolver.get(draft, Measure::Y).value_or(Length{});
  const Length once =
      resolver.carrier(draft, use.vertical ? Axis::Height : Axis::Width).value_or(Length{});
  use.path = use.as == RibbonUse::As::Band ? once : once * 2;
  const Length cut = resolver.get(draft, Measure::Length).value_or(Length{});
  if (one.element.has("length"))
    use.given = cut;
  else
    use.extra = cut - use.path;
  use.adhesive =
      one.element.has("adhesive")
          ? resolver.catalogue().index_of(context, one.element, "adhesive", ItemKind::Adhesive)
          : (use.as == RibbonUse::As::Band || use.as == RibbonUse::As::Wrap
                 ? usual_adhesive(context.project, false)
                 : -1);
  return use;
}

EmbellishmentUse embellishment_of(Resolver& resolver, int draft) {
  using Measure = Resolver::Measure;
  Context& context = resolver.context();
  const Draft& one = resolver.drafts().at(draft);
  EmbellishmentUse use;
  use.id = one.id;
  use.place = one.element.place();
  use.embellishment = one.item;
  use.on = carrier_of(resolver, one.on);
  const int times = whole_number(context, one.element, "times", 1, 1, 500);
  if (const auto places = one.element.attribute("places")) {
    use.places = resolver.points(*places, one.card);
    use.position.place = places->place();
    const auto count = static_cast<int>(use.places.size());
    if (one.element.has("times") && count > 0 && count != times)
      note(context, *places, "read-either-or", fmt::format("{} places, as times says", times),
           "leave times away, or give a place for each");
    return use;
  }
  const auto at = one.element.attribute("at");
  use.position = position_of(resolver, at, one.card);
  const auto x = resolver.get(draft, Measure::X), y = resolver.get(draft, Measure::Y);
  if (!x || !y) return use;
  if (times == 1) {
    use.places.push_back({*x, *y});
    return use;
  }
  const auto whole = resolver.carrier(draft, Axis::Width);
  const auto own = resolver.get(draft, Measure::Width);
  if (!whole || !own) return use;
  for (const Length across : spread(*whole, *own, times, std::nullopt))
    use.places.push_back({across, *y});
  return use;
}

AuthorStep step_of(Resolver& resolver, const Element& element, int card) {
  Context& context = resolver.context();
  AuthorStep step;
  step.place = element.place();
  step.title = words_of(element, "title");
  if (const auto meant = element.attribute("for")) {
    if (resolver.drafts().thing_of(card, meant->view()) >= 0)
      step.for_id = meant->text();
    else
      note(context, *meant, "read-unknown-name", "the id of a thing on this card",
           context.journal.suggestion(meant->view(),
                                      [&] { return resolver.drafts().thing_ids(card); }));
  }
  step.text = author_text(resolver, element.prose(), card);
  step.instead_of = works_of(context, element, "instead-of", WorkOf::Steps);
  if (step.instead_of && !element.has("for"))
    context.journal.error("read-missing-attribute", element.attribute_place("instead-of"),
                          "instead-of on a step of its own, which stands in place of nothing",
                          "for=\"…\" beside it", "name the piece with for, or delete instead-of");
  step.uses = resolver.catalogue().used_in(context, element);
  if (const Element tip = element.child("tip")) step.tip = author_text(resolver, tip.prose(), card);
  if (const Element caution = element.child("caution"))
    step.caution = author_text(resolver, caution.prose(), card);
  step.picture = picture_of(context, element, "picture");
  step.picture_words = words_of(element, "picture-words");
  if (element.has("picture") != element.has("picture-words"))
    context.journal.error("read-missing-attribute", element.place(),
                          "a picture without words for those who cannot see it, or words alone",
                          "picture and picture-words", "write both");
  return step;
}

// What a card-level <stamp> lies on: a face or the envelope. Panels hold their own.
std::optional<Draft::On> stamped_on(Resolver& resolver, const Element& element, int card) {
  Context& context = resolver.context();
  const auto value = element.attribute("on");
  if (!value) return std::nullopt;
  const Card& model = context.project.cards.at(as_index(card));
  const std::string_view wanted = value->view();
  if (wanted == "envelope-front" || wanted == "envelope-inside") {
    if (model.envelope < 0) {
      note(context, *value, "read-no-envelope", "envelope=\"…\" on the <card>",
           "name the envelope of this card");
      return std::nullopt;
    }
    return Draft::On{wanted == "envelope-front" ? Draft::On::Kind::EnvelopeFront
                                                : Draft::On::Kind::EnvelopeInside,
                     0};
  }
  if (const int face = face_index(model.plan, wanted); face >= 0)
    return Draft::On{Draft::On::Kind::Face, face};
  const auto known = [&] {
    std::vector<std::string_view> ids{"envelope-front", "envelope-inside"};
    for (const Face& face : model.plan.faces) ids.emplace_back(face.id);
    return ids;
  };
  const bool piece = resolver.drafts().thing_of(card, wanted) >= 0;
  note(context, *value, "read-unknown-name", "a face of the card, or the envelope",
       piece ? fmt::format("put the <stamp> inside the element of {}", wanted)
             : context.journal.suggestion(wanted, known));
  return std::nullopt;
}

void build_card(Resolver& resolver, int number, std::size_t& letters) {
  Context& context = resolver.context();
  const Drafts& drafts = resolver.drafts();
  const CardDraft& draft = drafts.cards().at(as_index(number));
  Card& card = context.project.cards.at(as_index(number));
  const auto last = [](const auto& list) { return static_cast<int>(list.size()) - 1; };

  if (const Element intro = draft.element.child("intro"))
    card.intro = author_text(resolver, intro.prose(), number);
  card.picture = picture_of(context, draft.element, "picture");
  card.picture_words = words_of(draft.element, "picture-words");
  if (draft.element.has("picture") != draft.element.has("picture-words"))
    context.journal.error("read-missing-attribute", draft.element.place(),
                          "a picture without words for those who cannot see it, or words alone",
                          "picture and picture-words", "write both");

  auto next = draft.drafts.begin(); // in the order of the file, base first
  const auto take = [&](const Element& element) {
    while (next != draft.drafts.end() && !(drafts.at(*next).element == element)) ++next;
    return next == draft.drafts.end() ? -1 : *next;
  };
  const auto add_piece = [&](const Element& element) {
    const int one = take(element);
    if (one < 0) return;
    card.pieces.push_back(piece_of(resolver, one));
    card.pieces.back().letter = letter_of(letters++);
    card.build.push_back({Build::Kind::Piece, last(card.pieces)});
  };

  if (const Element base = draft.element.child("base")) add_piece(base);
  for (const Element& element : draft.element.children()) {
    if (element.is("panel") || element.is("band") || element.is("liner")) {
      add_piece(element);
    } else if (element.is("ribbon")) {
      if (const int one = take(element); one >= 0) {
        card.ribbons.push_back(ribbon_of(resolver, one));
        card.build.push_back({Build::Kind::Ribbon, last(card.ribbons)});
      }
    } else if (element.is("embellish")) {
      if (const int one = take(element); one >= 0) {
        card.embellishments.push_back(embellishment_of(resolver, one));
        card.build.push_back({Build::Kind::Embellishment, last(card.embellishments)});
      }
    } else if (element.is("stamp")) {
      const auto on = stamped_on(resolver, element, number);
      // Read even where it lies on nothing, so that its own faults are told in the same pass.
      Impression impression = impression_of(resolver, element, number, on.value_or(Draft::On{}));
      if (on) {
        card.face_stampings.push_back({carrier_of(resolver, *on), std::move(impression)});
        card.build.push_back({Build::Kind::Stamping, last(card.face_stampings)});
      }
    } else if (element.is("step")) {
      card.steps.push_back(step_of(resolver, element, number));
      card.build.push_back({Build::Kind::Step, last(card.steps)});
    } else if (element.is("tip")) {
      card.tips.push_back(author_text(resolver, element.prose(), number));
    }
  }
}

} // namespace

void build_cards(Resolver& resolver) {
  std::size_t letters = 0;
  const auto count = static_cast<int>(resolver.drafts().cards().size());
  for (int card = 0; card < count; ++card) build_card(resolver, card, letters);
}

} // namespace leafwright::reading
