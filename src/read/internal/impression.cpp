#include "read/internal/elements.h"

#include "measure/index.h"
#include "measure/letters.h"
#include "read/internal/fields.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace leafwright::reading {
namespace {

using Arranged = Impression::Arranged;

void read_image(Resolver& resolver, const Element& element, Impression& impression) {
  Context& context = resolver.context();
  const auto value = element.attribute("image");
  if (!value) return;
  std::string_view id = value->view();
  const std::size_t slash = id.find('/'); // set/image is allowed, the image's id alone is enough
  const std::string_view set = slash == std::string_view::npos ? "" : id.substr(0, slash);
  if (slash != std::string_view::npos) id.remove_prefix(slash + 1);
  const Supply* supply = resolver.catalogue().find(id);
  const bool image = supply != nullptr && supply->kind == Supply::Kind::Image;
  const bool in_set =
      image && (set.empty() || context.project.stamp_sets.at(as_index(supply->set)).id == set);
  if (in_set) {
    impression.set = supply->set;
    impression.image = supply->image;
    return;
  }
  note(context, *value, "read-unknown-name", "the id of an <image> in <supplies>",
       context.journal.suggestion(id, [&] { return resolver.catalogue().image_ids(); }));
}

void read_inks(Resolver& resolver, const Element& element, Impression& impression) {
  Context& context = resolver.context();
  const auto value = element.attribute("ink");
  if (value) {
    for (const ListedWord& word : listed_words(value->view())) {
      const int ink =
          resolver.catalogue().index_of(context, *value, word.text, word.at, ItemKind::Ink);
      if (ink >= 0) impression.inks.push_back(ink);
    }
  }
  if (!value && impression.method != Impression::Method::Masked) {
    context.journal.error("read-missing-attribute", element.place(), "<stamp> without ink",
                          "the ink or inks", "write ink=\"…\"");
  }
}

// The distance that a position names across or down, for a row or a column: its margin.
std::optional<Length> margin_of(Resolver& resolver, const Value& value, const Along& along,
                                int card, Axis axis) {
  if (!along.given || along.kind == Along::Kind::Centre) return std::nullopt;
  if (along.distance.empty()) return Length{};
  return resolver.length(value, along.distance, card, axis);
}

} // namespace

std::vector<Length> spread(Length whole, Length own, int count, std::optional<Length> margin) {
  std::vector<Length> at;
  const Length free = whole - own * count;
  const bool overlapping = !margin && free.nm < 0;
  const Length edge = margin ? *margin : (overlapping ? Length{} : free / (count + 1));
  const Length run = whole - edge * 2 - own; // from the first thing's
                                             // corner to the last one's
  for (int i = 0; i < count; ++i)
    at.push_back(count == 1 ? (whole - own) / 2 : edge + run * i / (count - 1));
  return at;
}

std::vector<Point> scattered(Size whole, Size own, int count) {
  // The plastic number's sequence: successive multiples of 1/p and 1/p² modulo 1 fill a square
  // evenly (M. Roberts, 2018; common practice in graphics).
  constexpr double p = 1.32471795724474602596;
  std::vector<Point> points;
  for (int i = 1; i <= count; ++i) {
    const double u = std::fmod(0.5 + i / p, 1.0), v = std::fmod(0.5 + i / (p * p), 1.0);
    const Length right = std::max(whole.width - own.width, Length{});
    const Length down = std::max(whole.height - own.height, Length{});
    points.push_back({{std::llround(u * static_cast<double>(right.nm))},
                      {std::llround(v * static_cast<double>(down.nm))}});
  }
  return points;
}

namespace {

// Top left corners of all impressions, by how they are arranged and where the author put them.
std::vector<Point> corners(Resolver& resolver, const Impression& impression, const Value& value,
                           const ParsedPosition& position, int card, Draft::On on) {
  const Size own = resolver.context()
                       .project.stamp_sets.at(as_index(impression.set))
                       .images.at(as_index(impression.image))
                       .size;
  const auto width = resolver.carrier(card, on, Axis::Width);
  const auto height = resolver.carrier(card, on, Axis::Height);
  if (!width || !height) return {};
  if (impression.arranged == Arranged::Scatter)
    return scattered({*width, *height}, own, impression.times);
  const bool grid = impression.arranged == Arranged::Grid;
  // Along one axis: spread over the carrier, or all at the author's place.
  const auto along_axis = [&](bool shared, int count, Length whole, Length side, const Along& along,
                              Axis axis) -> std::vector<Length> {
    if (shared) return spread(whole, side, count, margin_of(resolver, value, along, card, axis));
    const auto at = resolver.coordinate(value, position, card, on, axis, side);
    return at ? std::vector{*at} : std::vector<Length>{};
  };
  const std::vector<Length> xs = along_axis(grid || impression.arranged == Arranged::Row,
                                            grid ? impression.columns : impression.times, *width,
                                            own.width, position.across, Axis::Width);
  if (xs.empty()) return {};
  const std::vector<Length> ys = along_axis(grid || impression.arranged == Arranged::Column,
                                            grid ? impression.rows : impression.times, *height,
                                            own.height, position.down, Axis::Height);
  std::vector<Point> all;
  for (const Length y : ys)
    for (const Length x : xs) all.push_back({x, y});
  return all;
}

// What is said of the impression itself, without where it goes.
void read_print(Resolver& resolver, const Element& element, Impression& impression) {
  Context& context = resolver.context();
  read_image(resolver, element, impression);
  impression.method =
      choice_of(context, element, "method", method_words, Impression::Method::Plain);
  read_inks(resolver, element, impression);
  impression.times = whole_number(context, element, "times", 1, 1, 500);
  impression.fading = yes_no(context, element, "fading", false);
  impression.columns = whole_number(context, element, "columns", 1, 1, 100);
  impression.rows = whole_number(context, element, "rows", 1, 1, 100);
  impression.rotation = angle_of(context, element, "turn");
  if (element.has("columns") || element.has("rows"))
    impression.arranged = Arranged::Grid;
  else if (impression.times > 1)
    impression.arranged = Arranged::Row;
}

void read_corners(Resolver& resolver, const Element& element, const Value& places, int card,
                  Impression& impression) {
  impression.places = resolver.points(places, card);
  impression.position.place = places.place();
  const auto count = static_cast<int>(impression.places.size());
  if (element.has("times") && count > 0 && count != impression.times)
    note(resolver.context(), places, "read-either-or",
         fmt::format("{} places, as times says", impression.times),
         "leave times away, or give a place for each");
  impression.times = std::max(count, 1);
  impression.arranged = count > 1 ? Arranged::Scatter : Arranged::Once;
}

Impression read_impression(Resolver& resolver, const Element& element, int card, Draft::On on) {
  Context& context = resolver.context();
  Impression impression;
  impression.place = element.place();
  if (context.points >= Context::most_points) {
    context.journal.error("read-too-many", impression.place, "more stamping than can be kept",
                          fmt::format("at most {} images", Context::most_points),
                          "divide the project into several");
    return impression;
  }
  context.points += 8; // an impression weighs more than a point
  read_print(resolver, element, impression);
  if (const auto places = element.attribute("places")) {
    read_corners(resolver, element, *places, card, impression);
    return impression;
  }
  ParsedPosition position;
  Value value;
  if (const auto at = element.attribute("at")) {
    value = *at;
    const Parsed<ParsedPosition> parsed = parse_position(value.view());
    if (!parsed) {
      note_misread(context, value, parsed.parse_error(), "read-position");
      return impression;
    }
    position = *parsed;
    if (position.arranged) impression.arranged = *position.arranged;
    impression.position.place = value.place();
  }
  if (impression.arranged == Arranged::Grid)
    impression.times = impression.columns * impression.rows;
  if (impression.image >= 0)
    impression.places = corners(resolver, impression, value, position, card, on);
  return impression;
}

} // namespace

Impression impression_of(Resolver& resolver, const Element& element, int card, Draft::On on) {
  Impression impression = read_impression(resolver, element, card, on);
  resolver.context().points += impression.places.size();
  return impression;
}

} // namespace leafwright::reading
