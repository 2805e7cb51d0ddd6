#include "model/offset.h"
#include "read/internal/elements.h"
#include "read/internal/fields.h"
#include "read/internal/resolver.h"

#include <algorithm>

// A piece that takes its outline from another piece or from a die, and runs at a distance outside
// it.

namespace leafwright::reading {

namespace {

constexpr int longest_nesting = 16; // a mat round a mat round a mat

int die_of(const Project& project, std::string_view id) {
  const auto found = std::ranges::find(project.dies, id, &Die::id);
  return found == project.dies.end() ? -1 : static_cast<int>(found - project.dies.begin());
}

// The outline of a draft as its own attributes say it.
Shape shape_of_draft(Resolver& resolver, int draft, int depth) {
  Context& context = resolver.context();
  const Drafts& drafts = resolver.drafts();
  const Element shaped = drafts.source_of(draft, "shape");
  if (shaped.has("shape")) return shape_of(context, shaped);
  if (const int die = drafts.at(draft).item;
      die >= 0 && drafts.at(draft).kind == Draft::Kind::Piece)
    return leafwright::at(context.project.dies, die).shape;
  return shape_around(resolver, draft, depth + 1).value_or(Shape{});
}

Length offset_of(Resolver& resolver, int draft) {
  const auto value = resolver.drafts().attribute(draft, "offset");
  if (!value) return {};
  return resolver
      .length(*value, {0, value->view().size()}, resolver.drafts().at(draft).card, Axis::Width)
      .value_or(Length{});
}

} // namespace

std::optional<Length> side_around(Resolver& resolver, int draft, Axis axis) {
  const Drafts& drafts = resolver.drafts();
  const auto value = drafts.attribute(draft, "outline-of");
  if (!value) return std::nullopt;
  const int card = drafts.at(draft).card;
  const Length by = offset_of(resolver, draft);
  if (by < Length{} && axis == Axis::Width)
    note(resolver.context(), *drafts.attribute(draft, "offset"), "read-measure",
         "an offset to the outside", "write the smaller piece as the outline-of the larger");
  if (const int other = drafts.thing_of(card, value->view()); other >= 0 && other != draft) {
    const auto inner = resolver.get(other, side_of(axis));
    return inner ? std::optional(*inner + by * 2) : std::nullopt;
  }
  const std::vector<Die>& dies = resolver.context().project.dies;
  if (const int die = die_of(resolver.context().project, value->view()); die >= 0)
    return along(leafwright::at(dies, die).size, axis) + by * 2;
  if (axis == Axis::Width)
    resolver.context().journal.error("read-unknown-name", value->place(),
                                     detail::shown(value->view()),
                                     "the id of a piece on this card, or of a die",
                                     resolver.context().journal.suggestion(
                                         value->view(), [&] { return drafts.thing_ids(card); }));
  return std::nullopt;
}

std::optional<Shape> shape_around(Resolver& resolver, int draft, int depth) {
  const Drafts& drafts = resolver.drafts();
  const auto value = drafts.attribute(draft, "outline-of");
  if (!value || depth > longest_nesting) return std::nullopt;
  const Length by = offset_of(resolver, draft);
  if (const int other = drafts.thing_of(drafts.at(draft).card, value->view());
      other >= 0 && other != draft) {
    const Size size{resolver.get(other, Resolver::Measure::Width).value_or(Length{}),
                    resolver.get(other, Resolver::Measure::Height).value_or(Length{})};
    return offset_shape(shape_of_draft(resolver, other, depth), size, by);
  }
  const Project& project = resolver.context().project;
  if (const int die = die_of(project, value->view()); die >= 0)
    return offset_shape(leafwright::at(project.dies, die).shape,
                        leafwright::at(project.dies, die).size, by);
  return std::nullopt;
}

} // namespace leafwright::reading
