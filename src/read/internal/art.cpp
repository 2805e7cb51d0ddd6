#include "read/internal/elements.h"

#include "measure/letters.h"
#include "read/internal/fields.h"

#include <fmt/format.h>

#include <array>
#include <charconv>
#include <cmath>

namespace leafwright::reading {
namespace {

// How many nanometres a unit of a drawing counts across and down.
struct Grid {
  double x = 0, y = 0;
  double mean() const { return std::sqrt(x * y); }
};

std::optional<double> plain_number(std::string_view text) {
  double value = 0;
  const auto [stop, fault] =
      std::from_chars(text.data(), text.data() + text.size(), value, std::chars_format::fixed);
  if (fault != std::errc{} || stop != text.data() + text.size() || std::fabs(value) > 1e6)
    return std::nullopt;
  return value;
}

// `count` plain numbers between blanks, commas or, for a size, an x.
std::optional<std::vector<double>> numbers(std::string_view text, std::size_t count) {
  std::vector<double> list;
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t from = text.find_first_not_of(" \t\n,x", i);
    if (from == std::string_view::npos) break;
    const std::size_t end = std::min(text.find_first_of(" \t\n,x", from), text.size());
    const auto number = plain_number(text.substr(from, end - from));
    if (!number) return std::nullopt;
    list.push_back(*number);
    i = end;
  }
  if (list.size() != count) return std::nullopt;
  return list;
}

Length scaled_length(double value, double per_unit) { return {std::llround(value * per_unit)}; }

// Width and height of a grid written as `100 x 140`, in plain units.
std::optional<std::pair<double, double>> grid_sides(Context& context, const Element& element) {
  const auto value = element.attribute("grid");
  if (!value) return std::nullopt;
  const auto sides = numbers(value->view(), 2);
  if (sides && sides->at(0) > 0 && sides->at(1) > 0) return std::pair(sides->at(0), sides->at(1));
  note(context, *value, "read-number", "a grid such as 100 x 140", "write two plain numbers");
  return std::nullopt;
}

Grid grid_of(Context& context, const Element& element, Size size) {
  if (const auto sides = grid_sides(context, element))
    return {static_cast<double>(size.width.nm) / sides->first,
            static_cast<double>(size.height.nm) / sides->second};
  const auto unit = static_cast<double>(context.unit == Unit::Inch ? nm_per_inch : nm_per_mm);
  return {unit, unit};
}

double number_of(Context& context, const Element& element, std::string_view name, double fallback) {
  const auto value = element.attribute(name);
  if (!value) return fallback;
  const auto list = numbers(value->view(), 1);
  if (list && list->front() >= 0) return list->front();
  note(context, *value, "read-number", "a plain number of grid units", "write a number");
  return fallback;
}

Path path_of(Context& context, const Element& element, std::string_view name, double x, double y) {
  const auto value = element.attribute(name);
  if (!value) return {};
  const Parsed<Path> path = parse_path(value->view(), x, y);
  if (path) return *path;
  note_misread(context, *value, path.parse_error(), "read-path");
  return {};
}

// A free outline lives in a grid of its own: one unit is a tenth of a millimetre, and the box of
// the thing scales it.
void read_free(Context& context, const Element& element, std::string_view path_name, Shape& shape) {
  constexpr double unit = 100'000;
  const auto sides = grid_sides(context, element);
  const bool drawn = element.has(path_name);
  if (!drawn || (!sides && !element.has("grid"))) {
    context.journal.error("read-missing-attribute", element.place(),
                          fmt::format("a free outline without {}", drawn ? "grid" : path_name),
                          fmt::format("{} with path data, and grid with its two sides", path_name),
                          drawn ? "write grid=\"100 x 140\", the box that the path fills"
                                : fmt::format("write {}=\"M…\"", path_name));
  }
  shape.path_size =
      sides ? Size{scaled_length(sides->first, unit), scaled_length(sides->second, unit)}
            : Size{scaled_length(100, unit), scaled_length(100, unit)};
  shape.path = path_of(context, element, path_name, unit, unit);
}

void read_art_look(Context& context, const Element& element, Art& art) {
  art.tone = share_of_one(context, element, "tone", 1.0);
  art.ink = whole_number(context, element, "ink", 1, 1, 8) - 1;
}

Rect box_of(Context& context, const Element& element, const Grid& grid, Size size) {
  const auto value = element.attribute("box");
  if (!value) return {{}, size};
  const auto box = numbers(value->view(), 4);
  if (!box || box->at(2) <= 0 || box->at(3) <= 0) {
    note(context, *value, "read-number", "a box: left, top, width and height, such as 34 2 32 32",
         "write four plain numbers of grid units");
    return {{}, size};
  }
  return {{scaled_length(box->at(0), grid.x), scaled_length(box->at(1), grid.y)},
          {scaled_length(box->at(2), grid.x), scaled_length(box->at(3), grid.y)}};
}

TextArt text_art(Context& context, const Element& element, const Grid& grid, Size size) {
  TextArt art;
  const Value words = element.prose();
  art.text = words.text();
  if (words.empty()) {
    context.journal.error("read-missing-words", element.place(), "a <text> without words",
                          "the words that are drawn", "write them between <text> and </text>");
  }
  art.face = words_of(element, "face", "display");
  art.height = scaled_length(number_of(context, element, "height", 12), grid.y);
  art.at = {size.width / 2, size.height / 2};
  if (const auto at = element.attribute("at")) {
    if (const auto point = numbers(at->view(), 2))
      art.at = {scaled_length(point->at(0), grid.x), scaled_length(point->at(1), grid.y)};
    else
      note(context, *at, "read-number", "a point such as 77.5, 20", "write two plain numbers");
  }
  return art;
}

ShapeArt shape_art(Context& context, const Element& element, const Grid& grid, Size size) {
  ShapeArt art;
  art.shape.outline =
      choice_of(context, element, "outline", outline_words, Shape::Outline::Rectangle);
  art.shape.edge = choice_of(context, element, "edge", edge_words, Shape::Edge::Plain);
  art.shape.radius = scaled_length(number_of(context, element, "radius", 0), grid.mean());
  art.shape.depth = scaled_length(number_of(context, element, "depth", 0), grid.mean());
  art.shape.count = whole_number(context, element, "points", 5, 3, 200);
  if (art.shape.outline == Shape::Outline::Free) read_free(context, element, "d", art.shape);
  art.box = box_of(context, element, grid, size);
  art.stroke = scaled_length(number_of(context, element, "line", 0), grid.mean());
  art.filled = !element.has("line");
  return art;
}

} // namespace

Shape shape_of(Context& context, const Element& element) {
  Shape shape;
  shape.outline = choice_of(context, element, "shape", outline_words, Shape::Outline::Rectangle);
  shape.edge = choice_of(context, element, "edge", edge_words, Shape::Edge::Plain);
  shape.radius = length_of(context, element, "radius", {});
  shape.depth = length_of(context, element, "depth", {});
  const bool pointed =
      shape.outline == Shape::Outline::Polygon || shape.outline == Shape::Outline::Star;
  shape.count = whole_number(context, element, "points", pointed ? 5 : 0, 3, 200);
  if (shape.outline == Shape::Outline::Free) {
    read_free(context, element, "outline", shape);
  } else if (element.has("outline") || element.has("grid")) {
    const std::string_view name = element.has("outline") ? "outline" : "grid";
    if (!element.is("embellishment") || name == "outline")
      context.journal.error("read-either-or", element.attribute_place(name),
                            fmt::format("{} with an outline that is not free", name),
                            "shape=\"free\"",
                            fmt::format("write shape=\"free\" or delete {}", name));
  }
  return shape;
}

Artwork artwork_of(Context& context, const Element& element, Size size) {
  Artwork artwork;
  const Grid grid = grid_of(context, element, size);
  for (const Element& child : element.children()) {
    Art art;
    read_art_look(context, child, art);
    if (child.is("path")) {
      PathArt drawn;
      drawn.path = path_of(context, child, "d", grid.x, grid.y);
      drawn.filled = !child.has("line");
      drawn.stroke = scaled_length(number_of(context, child, "line", 0), grid.mean());
      art.what = std::move(drawn);
    } else if (child.is("text")) {
      art.what = text_art(context, child, grid, size);
    } else if (child.is("shape")) {
      art.what = shape_art(context, child, grid, size);
    } else if (child.is("picture")) {
      art.what = PictureArt{picture_of(context, child, "file"), box_of(context, child, grid, size)};
    } else {
      continue; // already noted as unknown
    }
    artwork.push_back(std::move(art));
  }
  return artwork;
}

} // namespace leafwright::reading
