#include "measure/index.h"
#include "measure/letters.h"
#include "model/form.h"
#include "read/document.h"
#include "read/internal/fields.h"
#include "read/internal/resolver.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

// Things by their names: what stands behind the full stop (mat.width, front.height,
// rounded-label.size), and the middle of one that another lies over.

namespace leafwright::reading {
namespace {

Quantity number(std::int64_t value) { return {Quantity::Kind::Number, {value, 1}}; }

// Width, height or, by the axis asked for, size.
std::optional<Quantity> of_size(Size size, std::string_view property, Axis axis, bool* saw_size) {
  if (property == "width") return quantity(size.width);
  if (property == "height") return quantity(size.height);
  if (property != "size") return std::nullopt;
  if (saw_size != nullptr) *saw_size = true;
  return quantity(axis == Axis::Width ? size.width : size.height);
}

std::optional<Quantity> of_item(const Project& project, const Supply& supply,
                                std::string_view property, Axis axis, bool* saw_size) {
  if (supply.kind == Supply::Kind::Image)
    return of_size(
        leafwright::at(leafwright::at(project.stamp_sets, supply.set).images, supply.image).size,
        property, axis, saw_size);
  const int index = supply.item.index;
  switch (supply.item.kind) {
  case ItemKind::Stock: {
    const Stock& stock = leafwright::at(project.stocks, index);
    if (property == "caliper") return quantity(stock.caliper);
    return of_size(stock.sheets.front().size, property, axis, saw_size);
  }
  case ItemKind::Die:
    return of_size(leafwright::at(project.dies, index).size, property, axis, saw_size);
  case ItemKind::Envelope:
    return of_size(leafwright::at(project.envelopes, index).size, property, axis, saw_size);
  case ItemKind::Embellishment: {
    const Embellishment& thing = leafwright::at(project.embellishments, index);
    if (property == "height") return quantity(thing.height);
    return of_size(thing.size, property, axis, saw_size);
  }
  case ItemKind::Ribbon: {
    const Ribbon& ribbon = leafwright::at(project.ribbons, index);
    if (property == "width") return quantity(ribbon.width);
    if (property == "spool") return quantity(ribbon.spool);
    return std::nullopt;
  }
  case ItemKind::Pack:
  case ItemKind::StampSet:
  case ItemKind::Ink:
  case ItemKind::Adhesive:
  case ItemKind::Tool:
  case ItemKind::Tutorial:
  case ItemKind::Parts: break;
  }
  return std::nullopt;
}

std::string properties_of(const Ref& ref, const Drafts& drafts) {
  if (const auto* draft = std::get_if<DraftRef>(&ref)) {
    switch (drafts.at(draft->draft).kind) {
    case Draft::Kind::Ribbon: return "width, at or length";
    case Draft::Kind::Embellishment: return "width, height, size or count";
    default: return "width, height, size, left, top, right, bottom, reveal or count";
    }
  }
  if (std::holds_alternative<CardRef>(ref)) return "width, height, size or minutes";
  if (const auto* supply = std::get_if<SupplyRef>(&ref);
      supply != nullptr && supply->supply.kind == Supply::Kind::Item) {
    if (supply->supply.item.kind == ItemKind::Ribbon) return "width or spool";
    if (supply->supply.item.kind == ItemKind::Stock) return "width, height, size or caliper";
  }
  return "width, height or size";
}

std::vector<std::string_view> property_words() {
  return {"width",  "height", "size", "left",   "top",     "right",   "bottom",
          "reveal", "count",  "at",   "length", "minutes", "caliper", "spool"};
}

} // namespace

Ref Resolver::find(int card, std::string_view name) const {
  const std::size_t slash = name.find('/');
  if (slash != std::string_view::npos) {
    card = drafts_.card_of(name.substr(0, slash));
    name.remove_prefix(slash + 1);
    if (card < 0) return {};
  }
  if (card >= 0) {
    if (name == "card") return CardRef{card};
    const int face = face_index(leafwright::at(context_.project.cards, card).plan, name);
    if (face >= 0) return FaceRef{card, face};
    const int draft = drafts_.thing_of(card, name);
    if (draft >= 0) return DraftRef{draft};
  }
  if (slash != std::string_view::npos) return {};
  if (const Supply* supply = catalogue_.find(name)) return SupplyRef{*supply};
  if (const int other = drafts_.card_of(name); other >= 0) return CardRef{other};
  return {};
}

// What an unknown name was probably meant to be: a card, a thing of that card, or a thing in reach.
std::string Resolver::near_name(int card, std::string_view name) const {
  const std::size_t slash = name.find('/');
  if (slash != std::string_view::npos) {
    const int scope = drafts_.card_of(name.substr(0, slash));
    if (scope < 0) return did_you_mean(name.substr(0, slash), drafts_.card_ids());
    return did_you_mean(name.substr(slash + 1), drafts_.thing_ids(scope));
  }
  std::vector<std::string_view> known = drafts_.thing_ids(card);
  if (card >= 0)
    for (const Face& face : leafwright::at(context_.project.cards, card).plan.faces)
      known.emplace_back(face.id);
  for (const std::string_view id : catalogue_.ids()) known.push_back(id);
  return did_you_mean(name, known);
}

std::optional<Quantity> Resolver::property(const Value& value, Span name_span, Span property_span,
                                           int card, Axis axis, bool* saw_size) {
  const std::string_view name = slice(value.view(), name_span);
  const std::string_view property = slice(value.view(), property_span);
  const Ref ref = find(card, name);
  if (std::holds_alternative<std::monostate>(ref)) {
    fail(value, name_span, "read-unknown-name", "the id of a thing, such as mat in mat.width",
         context_.journal.full() ? std::string{} : near_name(card, name));
    return std::nullopt;
  }
  if (property.empty()) {
    fail(value, name_span, "read-expression", fmt::format("which measure of {} is meant", name),
         fmt::format("write {}.width, or another of: {}", name, properties_of(ref, drafts_)));
    return std::nullopt;
  }
  bool known = true;
  std::optional<Quantity> result;
  if (const auto* draft = std::get_if<DraftRef>(&ref)) {
    result = property_of_draft(draft->draft, property, axis, saw_size, known);
  } else if (const auto* face = std::get_if<FaceRef>(&ref)) {
    const Face& one =
        leafwright::at(leafwright::at(context_.project.cards, face->card).plan.faces, face->face);
    result = of_size(one.size, property, axis, saw_size);
    known = result.has_value();
  } else if (const auto* other = std::get_if<CardRef>(&ref)) {
    const Card& one = leafwright::at(context_.project.cards, other->card);
    result = property == "minutes" ? number(one.minutes)
                                   : of_size(one.finished, property, axis, saw_size);
    known = result.has_value();
  } else if (const auto* supply = std::get_if<SupplyRef>(&ref)) {
    result = of_item(context_.project, supply->supply, property, axis, saw_size);
    known = result.has_value();
  }
  if (!known) {
    const auto near = nearest_name(property, property_words());
    fail(value, property_span, "read-unknown-property",
         fmt::format("{} of {}", properties_of(ref, drafts_), name),
         near.empty() ? "choose one of these" : fmt::format("did you mean {}?", near),
         fmt::format("{}.{}", name, detail::shown(property)));
    return std::nullopt;
  }
  return result;
}

// How many of a thing there are; its points are counted once.
std::int64_t Resolver::count_of(int draft) {
  const auto [known, fresh] = counts_.emplace(draft, 1);
  if (!fresh) return known->second;
  const Draft& one = drafts_.at(draft);
  std::int64_t count = 1;
  if (const auto places = drafts_.attribute(draft, "places"))
    count = static_cast<std::int64_t>(points(*places, one.card).size());
  else if (one.kind == Draft::Kind::Embellishment)
    count = whole_number(context_, one.element, "times", 1, 1, 500);
  counts_[draft] = count;
  return count;
}

// Distance of an edge from the same edge of what a piece lies on.
std::optional<Length> Resolver::distance(int draft, std::string_view property) {
  const bool across = property == "left" || property == "right";
  const auto at = get(draft, across ? Measure::X : Measure::Y);
  if (!at || property == "left" || property == "top") return at;
  const auto own = get(draft, across ? Measure::Width : Measure::Height);
  const auto whole = carrier(draft, across ? Axis::Width : Axis::Height);
  if (!own || !whole) return std::nullopt;
  return *whole - *at - *own;
}

std::optional<Quantity> Resolver::property_of_draft(int draft, std::string_view property, Axis axis,
                                                    bool* saw_size, bool& known) {
  const Draft& one = drafts_.at(draft);
  const bool ribbon = one.kind == Draft::Kind::Ribbon;
  const auto as_quantity = [](std::optional<Length> length) {
    return length ? std::optional(quantity(*length)) : std::nullopt;
  };
  if (property == "width") return as_quantity(get(draft, Measure::Width));
  if (ribbon && property == "at") return as_quantity(get(draft, Measure::Y));
  if (ribbon && property == "length") return as_quantity(get(draft, Measure::Length));
  known = !ribbon;
  if (ribbon) return std::nullopt;
  if (property == "height") return as_quantity(get(draft, Measure::Height));
  if (property == "size") {
    if (saw_size != nullptr) *saw_size = true;
    return as_quantity(get(draft, axis == Axis::Width ? Measure::Width : Measure::Height));
  }
  if (property == "count") {
    return number(count_of(draft));
  }
  const bool embellishment = one.kind == Draft::Kind::Embellishment;
  const bool edge =
      property == "left" || property == "right" || property == "top" || property == "bottom";
  if (edge && !embellishment) return as_quantity(distance(draft, property));
  if (property == "reveal" && !embellishment && one.kind != Draft::Kind::Base) {
    std::optional<Length> least;
    for (const std::string_view side : {"left", "top", "right", "bottom"}) {
      const auto shown = distance(draft, side);
      if (!shown) return std::nullopt;
      if (!least || *shown < *least) least = shown;
    }
    return as_quantity(least);
  }
  known = false;
  return std::nullopt;
}

std::optional<Resolver::Root> Resolver::root(Draft::On on, Axis axis) {
  Root found{on.kind, on.index, {}};
  while (found.kind == Draft::On::Kind::Draft) { // has an end: circles were cut
    const int draft = found.face;
    const auto at = get(draft, place_on(axis));
    if (!at) return std::nullopt;
    found.origin += *at;
    const Draft& one = drafts_.at(draft);
    if (one.kind == Draft::Kind::Base) break;
    found.kind = one.on.kind;
    found.face = one.on.index;
  }
  return found;
}

// The middle of the thing called by `name`, measured on the carrier of whom it is asked for.
std::optional<Length> Resolver::centre_over(const Value& value, Span name, int card, Draft::On on,
                                            Axis axis) {
  const std::string_view id = slice(value.view(), name);
  const int draft = drafts_.thing_of(card, id);
  if (draft < 0) {
    fail(value, name, "read-unknown-name", "the id of a thing on this card",
         context_.journal.suggestion(id, [&] { return drafts_.thing_ids(card); }));
    return std::nullopt;
  }
  const Draft& other = drafts_.at(draft);
  std::optional<Length> middle;
  if (other.kind == Draft::Kind::Ribbon) {
    const bool upright = drafts_.attribute(draft, "along").value_or(Value{}).view() == "height";
    const bool across = (axis == Axis::Width) != upright; // along its own run
    const auto whole = across ? carrier(draft, axis) : get(draft, Measure::Y);
    if (!whole) return std::nullopt;
    middle = across ? *whole / 2 : *whole;
  } else {
    const auto at = get(draft, place_on(axis));
    const auto own = get(draft, side_of(axis));
    if (!at || !own) return std::nullopt;
    middle = *at + *own / 2;
  }
  const Draft::On other_on =
      other.kind == Draft::Kind::Window ? Draft::On{Draft::On::Kind::Draft, other.owner} : other.on;
  const auto theirs = root(other_on, axis);
  const auto ours = root(on, axis);
  if (!theirs || !ours) return std::nullopt;
  Length between{};
  if (theirs->kind != ours->kind || theirs->face != ours->face) {
    // Two faces that are seen together, as the gates of a gate fold are, share one measure.
    bool together = false;
    if (theirs->kind == Draft::On::Kind::Face && ours->kind == Draft::On::Kind::Face) {
      const auto& faces = leafwright::at(context_.project.cards, card).plan.faces;
      for (const Face::Seen& a : leafwright::at(faces, theirs->face).seen)
        for (const Face::Seen& b : leafwright::at(faces, ours->face).seen) {
          if (together || a.view != b.view) continue;
          together = true;
          between = axis == Axis::Width ? a.at.x - b.at.x : a.at.y - b.at.y;
        }
    }
    if (!together) {
      fail(value, name, "read-position", "a thing on the same side of the card",
           "give its place by a measure", fmt::format("{}, which lies elsewhere", id));
      return std::nullopt;
    }
  }
  return theirs->origin + *middle + between - ours->origin;
}

} // namespace leafwright::reading
