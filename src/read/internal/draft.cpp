#include "read/internal/draft.h"

#include "measure/index.h"
#include "measure/letters.h"
#include "model/form.h"
#include "read/document.h"
#include "read/internal/elements.h"
#include "read/internal/fields.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace leafwright::reading {
namespace {

std::vector<Named<Form::Kind>> form_words() {
  std::vector<Named<Form::Kind>> words;
  for (const FormRow& row : form_rows()) words.push_back({row.word, row.kind});
  return words;
}

constexpr int longest_likeness = 16; // a chain of "like" beyond this is a mistake

// Attributes of which one speaks for the whole group: a thing that says its own `places` does not
// take `at` from the one it is like.
constexpr std::array<std::array<std::string_view, 4>, 5> groups = {{
    {"at", "places", "", ""},
    {"raised", "with", "", ""},
    {"squares", "tape", "", ""},
    {"die", "shape", "", ""},
    {"outline", "die", "", ""},
}};

bool speaks_for(const Element& element, std::string_view name) {
  if (element.has(name)) return true;
  for (const auto& group : groups) {
    if (std::find(group.begin(), group.end(), name) == group.end()) continue;
    for (const std::string_view other : group)
      if (!other.empty() && other != name && element.has(other)) return true;
  }
  return false;
}

int number_of(const std::map<std::string, int, std::less<>>& numbers, std::string_view id) {
  const auto found = numbers.find(id);
  return found == numbers.end() ? -1 : found->second;
}

void note_twice(Context& context, Place place, Place first, std::string_view id) {
  Finding finding{Severity::Error,
                  "read-id-twice",
                  place,
                  fmt::format("the id {} a second time", id),
                  "an id that nothing else on the card has",
                  "choose another id here, and wherever this thing is meant",
                  {}};
  finding.trace.push_back({first, fmt::format("{} is first here", id)});
  context.journal.add(std::move(finding));
}

std::vector<Score> scores_of(Context& context, const Element& base) {
  std::vector<Score> scores;
  for (const Element& element : base.children("score"))
    if (const Score score = score_of(context, element); score.at.nm > 0) scores.push_back(score);
  return scores;
}

} // namespace

Drafts::Drafts(Context& context, const Catalogue& catalogue, const std::vector<Element>& cards) {
  for (const Element& element : cards) read_card(context, catalogue, element);
  const auto count = static_cast<int>(drafts_.size());
  for (int i = 0; i < count; ++i) settle_like(context, i);
  refuse_circles(
      context, [&](int i) { return at(i).like; }, [&](int i) { drafts_[as_index(i)].like = -1; },
      "is like");
  for (int i = 0; i < count; ++i) {
    settle_die(context, catalogue, i);
    settle_on(context, i);
  }
  refuse_circles(
      context, [&](int i) { return at(i).on.kind == Draft::On::Kind::Draft ? at(i).on.index : -1; },
      [&](int i) { drafts_[as_index(i)].on = {}; }, "lies on");
}

int Drafts::card_of(std::string_view id) const { return number_of(card_ids_, id); }

int Drafts::thing_of(int card, std::string_view id) const {
  return card < 0 ? -1 : number_of(cards_.at(as_index(card)).things, id);
}

std::vector<std::string_view> Drafts::card_ids() const {
  std::vector<std::string_view> ids;
  for (const auto& [id, card] : card_ids_) {
    if (ids.size() == 2000) break; // compared for a near miss; more would only cost time
    ids.emplace_back(id);
  }
  return ids;
}

std::vector<std::string_view> Drafts::thing_ids(int card) const {
  std::vector<std::string_view> ids;
  if (card < 0) return ids;
  for (const int draft : cards_.at(as_index(card)).drafts) {
    if (ids.size() == 2000) break;
    if (!at(draft).id.empty()) ids.emplace_back(at(draft).id);
  }
  return ids;
}

Element Drafts::source_of(int draft, std::string_view name) const {
  for (int step = 0; draft >= 0 && step < longest_likeness; ++step) {
    const Draft& one = at(draft);
    if (speaks_for(one.element, name)) return one.element;
    draft = one.like;
  }
  return {};
}

std::optional<Value> Drafts::attribute(int draft, std::string_view name) const {
  return source_of(draft, name).attribute(name);
}

Element Drafts::content(int draft) const {
  for (int step = 0; draft >= 0 && step < longest_likeness; ++step) {
    const Draft& one = at(draft);
    const auto made = one.element.children();
    const bool own = std::ranges::any_of(made, [](const Element& e) { return !e.is("accept"); });
    if (one.like < 0 || own) return one.element;
    draft = one.like;
  }
  return {};
}

void Drafts::read_card(Context& context, const Catalogue& catalogue, const Element& element) {
  Card card;
  card.place = element.place();
  card.id = id_of(context, element);
  card.title = words_of(element, "title", name_from_id(card.id));
  card.form.kind = choice_of(context, element, "form", form_words(), Form::Kind::TopFold);
  const FormRow& form = form_row(card.form.kind);
  const bool counted = form.leaves == FormRow::Leaves::Required;
  const bool custom = card.form.kind == Form::Kind::Custom;
  card.form.leaves = whole_number(context, element, "leaves", form.usual_leaves, 2, 12);
  for (const auto& [name, wanted] : {std::pair<std::string_view, bool>{"leaves", counted},
                                     std::pair<std::string_view, bool>{"unfolded", custom}}) {
    if (wanted && !element.has(name)) {
      context.journal.error(
          "read-missing-attribute", element.place(), fmt::format("<card> without {}", name),
          fmt::format("{} for this form", name), fmt::format("write {}=\"…\"", name));
    } else if (!wanted && element.has(name) &&
               !(form.leaves == FormRow::Leaves::Allowed && name == "leaves")) {
      context.journal.error("read-either-or", element.attribute_place(name),
                            fmt::format("{} for a form that has none", name),
                            counted || custom ? "nothing" : "only the size", "delete it");
    }
  }
  card.finished =
      size_of(context, element, "size", {inches(4, 1, 4), inches(5, 1, 2)}, card_sizes());
  const std::string written = words_of(element, "size");
  if (find_size(card_sizes(), written)) card.size_name = written;
  card.minutes = whole_number(context, element, "minutes", 0, 1, 100'000);
  card.level = words_of(element, "level");
  card.envelope = catalogue.index_of(context, element, "envelope", ItemKind::Envelope);
  card.envelope_place = element.attribute_place("envelope");

  const Element base = element.child("base");
  std::vector<Score> scores = scores_of(context, base);
  const Size unfolded = size_of(context, element, "unfolded", card.finished);
  if (!custom) scores.clear(); // kept with the base as further score lines
  card.plan = plan_of(card.form, card.finished, unfolded, std::move(scores));
  read_pop_ups(context, card, base);
  const auto index = static_cast<int>(cards_.size());
  if (!card.id.empty()) {
    const auto [where, fresh] = card_ids_.emplace(card.id, index);
    if (!fresh)
      note_twice(context, card.place, context.project.cards.at(as_index(where->second)).place,
                 card.id);
  }
  context.project.cards.push_back(std::move(card));
  cards_.push_back({element, {}, {}});
  if (base) add_thing(context, catalogue, index, base);
  for (const Element& child : element.children())
    if (!child.is("base")) add_thing(context, catalogue, index, child);
}

void Drafts::add_thing(Context& context, const Catalogue& catalogue, int card,
                       const Element& element) {
  Draft draft;
  draft.card = card;
  draft.element = element;
  CardDraft& home = cards_.back();
  using Kind = Draft::Kind;
  if (element.is("base") || element.is("panel") || element.is("band") || element.is("liner")) {
    draft.kind = element.is("base") ? Kind::Base : Kind::Piece;
    draft.index = home.pieces++;
    const bool base = draft.kind == Kind::Base;
    add(context, draft, base ? "base" : "");
    const auto owner = static_cast<int>(drafts_.size()) - 1;
    for (const Element& child : element.children("window")) {
      Draft window;
      window.kind = Kind::Window;
      window.card = card;
      window.element = child;
      window.owner = owner;
      drafts_[as_index(owner)].windows.push_back(static_cast<int>(drafts_.size()));
      add(context, window, "");
    }
  } else if (element.is("ribbon")) {
    draft.kind = Kind::Ribbon;
    draft.index = home.ribbons++;
    draft.item = catalogue.index_of(context, element, "of", ItemKind::Ribbon);
    add(context, draft, draft.index == 0 ? "ribbon" : "");
  } else if (element.is("embellish")) {
    draft.kind = Kind::Embellishment;
    draft.index = home.embellishments++;
    draft.item = catalogue.index_of(context, element, "with", ItemKind::Embellishment);
    add(context, draft, "");
  }
}

void Drafts::add(Context& context, Draft draft, std::string_view fallback_id) {
  draft.id = id_of(context, draft.element, fallback_id);
  CardDraft& card = cards_.back();
  const auto index = static_cast<int>(drafts_.size());
  const Card& model = context.project.cards.at(as_index(draft.card));
  if (!draft.id.empty()) {
    const auto value = draft.element.attribute("id");
    const Place place = value ? value->place() : draft.element.place();
    const bool reserved = face_index(model.plan, draft.id) >= 0 || draft.id == "card" ||
                          draft.id == "envelope-front" || draft.id == "envelope-inside";
    if (reserved) {
      context.journal.error("read-id-twice", place,
                            fmt::format("the id {}, which is a part of the card itself", draft.id),
                            "an id that nothing else on the card has", "choose another id");
    } else {
      const auto [where, fresh] = card.things.emplace(draft.id, index);
      // A default id gives way without a word; an id that was written does not.
      if (!fresh && value) {
        const Element first = at(where->second).element;
        note_twice(context, place, first.has("id") ? first.attribute("id")->place() : first.place(),
                   draft.id);
      }
    }
  }
  card.drafts.push_back(index);
  drafts_.push_back(std::move(draft));
}

void Drafts::settle_like(Context& context, int draft) {
  Draft& one = drafts_[as_index(draft)];
  if (one.kind != Draft::Kind::Piece) return;
  const auto value = one.element.attribute("like");
  if (!value) return;
  const std::string_view text = value->view();
  const std::size_t slash = text.find('/');
  const std::string_view id = slash == std::string_view::npos ? text : text.substr(slash + 1);
  const int card = slash == std::string_view::npos ? one.card : card_of(text.substr(0, slash));
  const int other = thing_of(card, id);
  if (other >= 0 && at(other).kind == Draft::Kind::Piece) {
    one.like = other;
    return;
  }
  const bool unknown_card = card < 0;
  context.journal.error("read-unknown-name", value->place(), detail::shown(text),
                        "a panel, a band or a liner to take after",
                        context.journal.suggestion(unknown_card ? text.substr(0, slash) : id, [&] {
                          return unknown_card ? card_ids() : thing_ids(card);
                        }));
}

void Drafts::settle_die(Context& context, const Catalogue& catalogue, int draft) {
  Draft& one = drafts_[as_index(draft)];
  if (one.kind != Draft::Kind::Piece && one.kind != Draft::Kind::Window) return;
  if (const auto die = attribute(draft, "die"))
    one.item = catalogue.index_of(context, *die, die->view(), 0, ItemKind::Die);
}

void Drafts::settle_on(Context& context, int draft) {
  const Draft::Kind kind = at(draft).kind;
  if (kind == Draft::Kind::Base || kind == Draft::Kind::Window) return;
  const auto value = attribute(draft, "on");
  Draft& one = drafts_[as_index(draft)];
  const FormPlan& plan = context.project.cards.at(as_index(one.card)).plan;
  const std::string_view wanted = value ? value->view() : std::string_view("front");
  one.on.index = std::max(0, face_index(plan, "front"));
  if (wanted == "envelope-front" || wanted == "envelope-inside") {
    one.on.kind = wanted == "envelope-front" ? Draft::On::Kind::EnvelopeFront
                                             : Draft::On::Kind::EnvelopeInside;
    if (context.project.cards.at(as_index(one.card)).envelope < 0 && value)
      context.journal.error("read-no-envelope", value->place(), "a card without an envelope",
                            "envelope=\"…\" on the <card>", "name the envelope of this card");
    return;
  }
  if (const int face = face_index(plan, wanted); face >= 0) {
    one.on.index = face;
    return;
  }
  const int other = thing_of(one.card, wanted);
  const bool carries =
      other >= 0 && other != draft &&
      (at(other).kind == Draft::Kind::Piece || at(other).kind == Draft::Kind::Base);
  if (carries) {
    one.on = {Draft::On::Kind::Draft, other};
    return;
  }
  if (!value) return;
  const auto known = [&] {
    std::vector<std::string_view> ids;
    for (const Face& face : plan.faces) ids.emplace_back(face.id);
    for (const std::string_view id : thing_ids(one.card)) ids.push_back(id);
    return ids;
  };
  context.journal.error("read-unknown-name", value->place(),
                        other == draft ? fmt::format("{}, which is this thing itself", wanted)
                                       : detail::shown(wanted),
                        "a face of the card or a piece to lie on",
                        context.journal.suggestion(wanted, known));
}

// Follows `next` from every draft once, in linear time; a circle is reported and cut.
void Drafts::refuse_circles(Context& context, const std::function<int(int)>& next,
                            const std::function<void(int)>& cut, std::string_view words) {
  enum : char { Fresh, Open, Done };
  std::vector<char> state(drafts_.size(), Fresh);
  const auto state_of = [&](int i) -> char& { return state[as_index(i)]; };
  for (int start = 0; start < static_cast<int>(drafts_.size()); ++start) {
    std::vector<int> trail;
    int here = start;
    while (here >= 0 && state_of(here) == Fresh) {
      state_of(here) = Open;
      trail.push_back(here);
      here = next(here);
    }
    if (here >= 0 && state_of(here) == Open) {
      Finding finding{Severity::Error,
                      "read-circle",
                      at(here).element.place(),
                      fmt::format("{} {} itself in the end", at(here).id, words),
                      "a chain with a beginning",
                      "let one of them stand by itself",
                      {}};
      int step = here;
      for (int count = 0; count < longest_likeness; ++count) {
        const int after = next(step);
        finding.trace.push_back(
            {at(step).element.place(), fmt::format("{} {} {}", at(step).id, words, at(after).id)});
        step = after;
        if (step == here) break;
      }
      context.journal.add(std::move(finding));
      cut(here);
    }
    for (const int one : trail) state_of(one) = Done;
  }
}

} // namespace leafwright::reading
