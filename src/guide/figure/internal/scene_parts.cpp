#include "guide/figure/internal/scene_parts.h"

#include "language/english.h"

#include <algorithm>
#include <cmath>
#include <type_traits>
#include <utility>

namespace leafwright::figure {

namespace {

constexpr Length shadow_room = micrometres(1500);

} // namespace

Rect box_of(const Project& project, const Card& card, const Staging& staging, std::size_t count) {
  Rect box = grown({{}, staging.size()}, shadow_room);
  if (staging.stage() == Stage::EnvelopeInside) { // the open flap
    const Length flap = staging.size().height / 2;
    box = united(box, {{none, -flap}, {staging.size().width, flap}});
  }
  if (card.form.kind == Form::Kind::Tag && staging.stage() == Stage::Front)
    box = united(box, {{staging.size().width / 4, -millimetres(11)},
                       {staging.size().width / 2, millimetres(11)}});
  for (std::size_t i = 0; i < std::min(count, card.build.size()); ++i)
    for (const Path& path : outlines_of(project, card, staging, card.build.at(i)))
      box = united(box, grown(bounds(path), micrometres(600)));
  return box;
}

void append_shifted(Items& into, Items items, Point by) {
  for (SceneItem& item : items) {
    std::visit(
        [by](auto& shape) {
          using Shape = std::decay_t<decltype(shape)>;
          if constexpr (std::is_same_v<Shape, SceneFill> || std::is_same_v<Shape, SceneStroke> ||
                        std::is_same_v<Shape, SceneClip>)
            shape.path = moved(std::move(shape.path), by);
          else if constexpr (std::is_same_v<Shape, SceneText>)
            shape.centre = shape.centre + by;
          else if constexpr (std::is_same_v<Shape, SceneImage> || std::is_same_v<Shape, SceneMark>)
            shape.box.origin = shape.box.origin + by;
        },
        item);
    into.push_back(std::move(item));
  }
}

void quieten(Items& items, std::size_t first) {
  const Colour light{255, 255, 255};
  for (std::size_t i = first; i < items.size(); ++i) {
    if (SceneFill* shape = std::get_if<SceneFill>(&items.at(i)))
      shape->colour = mixed(shape->colour, light, 0.55);
    if (SceneStroke* stroke = std::get_if<SceneStroke>(&items.at(i)))
      stroke->colour = mixed(stroke->colour, light, stroke->real_width ? 0.55 : 0.35);
    if (SceneText* words = std::get_if<SceneText>(&items.at(i)))
      words->colour = mixed(words->colour, light, 0.45);
  }
}

void halve(Items& items) {
  const auto half = [](Rect rect) {
    return Rect{{rect.left() / 2, rect.top() / 2}, {rect.size.width / 2, rect.size.height / 2}};
  };
  for (SceneItem& item : items)
    std::visit(
        [&](auto& shape) {
          using Shape = std::decay_t<decltype(shape)>;
          if constexpr (std::is_same_v<Shape, SceneFill> || std::is_same_v<Shape, SceneStroke> ||
                        std::is_same_v<Shape, SceneClip>)
            shape.path = scaled(std::move(shape.path), 0.5, 0.5);
          if constexpr (std::is_same_v<Shape, SceneStroke>) {
            if (!shape.real_width) return;
            shape.width = shape.width / 2;
            for (Length& length : shape.dash) length = length / 2;
          } else if constexpr (std::is_same_v<Shape, SceneText>) {
            shape.height = shape.height / 2;
            shape.centre = {shape.centre.x / 2, shape.centre.y / 2};
          } else if constexpr (std::is_same_v<Shape, SceneImage> ||
                               std::is_same_v<Shape, SceneMark>) {
            shape.box = half(shape.box);
          }
        },
        item);
}

void draw_score_line(Items& into, Point from, Point to, bool mountain, Colour colour) {
  const auto um = [](std::int64_t a) { return micrometres(a); };
  const std::vector<Length> dash =
      mountain ? std::vector<Length>{um(2600), um(600), um(350), um(600), um(350), um(600)}
               : std::vector<Length>{um(2600), um(700), um(350), um(700)};
  drawn_stroke(into, segment(from, to), {255, 255, 255}, points(1.6), 0.55);
  drawn_stroke(into, segment(from, to), colour, points(0.7), 1.0, dash);
}

Rect clear_of_line(Point from, Point to) {
  const Rect line{{std::min(from.x, to.x), std::min(from.y, to.y)},
                  {absolute(to.x - from.x), absolute(to.y - from.y)}};
  return grown(line, micrometres(700));
}

std::vector<Rect> clear_of_path(const Path& path) {
  std::vector<Rect> squares;
  const Length half = micrometres(500);
  const auto add = [&](double x, double y) {
    squares.push_back({{from_nm(x) - half, from_nm(y) - half}, {half * 2, half * 2}});
  };
  const auto nm = [](Length a) { return static_cast<double>(a.nm); };
  Point here;
  Point start;
  for (const Segment& part : path) {
    const Point end = part.kind == Segment::Kind::Close ? start : part.end;
    const bool curve = part.kind == Segment::Kind::Curve;
    const Point c1 = curve ? part.control1 : here;
    const Point c2 = curve ? part.control2 : end;
    if (part.kind != Segment::Kind::Move) {
      const double reach = std::abs(nm(c1.x - here.x)) + std::abs(nm(c1.y - here.y)) +
                           std::abs(nm(c2.x - c1.x)) + std::abs(nm(c2.y - c1.y)) +
                           std::abs(nm(end.x - c2.x)) + std::abs(nm(end.y - c2.y));
      const int steps = std::clamp(static_cast<int>(reach / 0.9e6), 1, 120);
      for (int i = 0; i <= steps; ++i) { // a point of the curve (de Casteljau), or of the line
        const double t = static_cast<double>(i) / steps;
        const double u = 1.0 - t;
        const auto at = [&](Length a, Length b, Length c, Length d) {
          return curve ? u * u * u * nm(a) + 3 * u * u * t * nm(b) + 3 * u * t * t * nm(c) +
                             t * t * t * nm(d)
                       : u * nm(a) + t * nm(d);
        };
        add(at(here.x, c1.x, c2.x, end.x), at(here.y, c1.y, c2.y, end.y));
      }
    } else {
      start = part.end;
    }
    here = end;
  }
  return squares;
}

void draw_emphasis(Items& into, const Path& path, Colour accent, bool dashed) {
  if (dashed) {
    drawn_stroke(into, path, accent, points(1.1), 1.0, {micrometres(1100), micrometres(600)});
    return;
  }
  drawn_stroke(into, path, {255, 255, 255}, points(2.8), 0.85);
  drawn_stroke(into, path, accent, points(1.5));
}

void draw_cross(Items& into, Point centre, Length arm, Colour colour, Length width) {
  drawn_stroke(into, segment({centre.x - arm, centre.y}, {centre.x + arm, centre.y}), colour,
               width);
  drawn_stroke(into, segment({centre.x, centre.y - arm}, {centre.x, centre.y + arm}), colour,
               width);
}

void draw_direction_arrow(Items& into, Rect within, bool turned, Colour colour) {
  const Length long_side = turned ? within.size.width : within.size.height;
  const Length length = std::min(long_side / 2, millimetres(16));
  const Point c = within.centre();
  const auto at = [&](Length along, Length across) { // along: towards the pattern's top
    return turned ? Point{c.x + along, c.y + across} : Point{c.x + across, c.y - along};
  };
  const Length head = std::min(length / 4, micrometres(3200));
  const Path shaft = segment(at(-length / 2, none), at(length / 2 - head / 2, none));
  const Path tip = polyline(
      {at(length / 2, none), at(length / 2 - head, head / 2), at(length / 2 - head, -head / 2)},
      true);
  drawn_stroke(into, shaft, {255, 255, 255}, points(2.2), 0.7);
  drawn_stroke(into, shaft, colour, points(0.8));
  fill(into, tip, colour);
}

void draw_waste(Items& into, Rect rect, Length apart) {
  into.emplace_back(SceneClip{rectangle(rect)});
  Path lines;
  const Length far = rect.size.width + rect.size.height;
  const std::int64_t count = far.nm / std::max<std::int64_t>(apart.nm, 1) + 1;
  for (std::int64_t i = 1; i <= std::min<std::int64_t>(count, 400); ++i) {
    const Length c = apart * i;
    append(lines, segment({rect.left() + c, rect.top()},
                          {rect.left() + c - rect.size.height, rect.bottom()}));
  }
  drawn_stroke(into, std::move(lines), {150, 143, 134}, points(0.4), 0.75);
  into.emplace_back(SceneUnclip{});
}

void add_size(std::vector<Dimension>& into, Rect thing, const Printing& printing) {
  const Point top_right{thing.right(), thing.top()};
  const Point bottom_left{thing.left(), thing.bottom()};
  Dimension width{thing.origin, top_right, number_text(thing.size.width, printing)};
  width.from_of = width.to_of = thing;
  into.push_back(std::move(width));
  Dimension height{thing.origin, bottom_left, number_text(thing.size.height, printing)};
  height.from_of = height.to_of = thing;
  into.push_back(std::move(height));
}

namespace {

bool is_askew(const Frame& frame) {
  constexpr double level = 1e-9;
  return std::abs(frame.sine) > level && std::abs(frame.cosine) > level;
}

// A distance on a carrier, as it stands in the picture.
class DistanceMaker {
 public:
  DistanceMaker(std::vector<Dimension>& into, Size carrier, const Project& project,
                const Frame& frame)
      : into_(into), carrier_{{}, carrier}, project_(project), frame_(frame) {}

  void from_edge(Rect part, Edge edge, const std::string& more = {}) {
    const Length gap = gap_at(gaps_in(carrier_.size, part), edge);
    if (alike(gap, {})) return;
    const Point c = part.centre();
    const Rect& on = carrier_;
    switch (edge) {
    case Edge::Left: return add({on.left(), c.y}, on, {part.left(), c.y}, part, more);
    case Edge::Right: return add({part.right(), c.y}, part, {on.right(), c.y}, on, more);
    case Edge::Top: return add({c.x, on.top()}, on, {c.x, part.top()}, part, more);
    case Edge::Bottom: return add({c.x, part.bottom()}, part, {c.x, on.bottom()}, on, more);
    }
  }

  void between(Rect first, Rect second, bool row) {
    const Point a = first.centre();
    if (row)
      add({first.right(), a.y}, first, {second.left(), a.y}, second, {});
    else
      add({a.x, first.bottom()}, first, {a.x, second.top()}, second, {});
  }

 private:
  void add(Point from, Rect from_of, Point to, Rect to_of, const std::string& more) {
    const Length length = std::max(absolute(to.x - from.x), absolute(to.y - from.y));
    Dimension dimension;
    dimension.from = placed(frame_, from);
    dimension.to = placed(frame_, to);
    dimension.words = number_text(length, project_.printing) + more;
    dimension.rank = 1;
    dimension.gap = true;
    dimension.from_of = placed_bounds(frame_, from_of);
    dimension.to_of = placed_bounds(frame_, to_of);
    const bool back = dimension.to.x + dimension.to.y < dimension.from.x + dimension.from.y;
    if (back) {
      std::swap(dimension.from, dimension.to);
      std::swap(dimension.from_of, dimension.to_of);
    }
    into_.push_back(std::move(dimension));
  }

  std::vector<Dimension>& into_;
  Rect carrier_;
  const Project& project_;
  const Frame& frame_;
};

} // namespace

void add_distances(std::vector<Dimension>& into, Rect part, Size carrier, const Project& project,
                   const Position& said, const Frame& on) {
  if (is_askew(on)) return;
  DistanceMaker maker(into, carrier, project, on);
  const Gaps gaps = gaps_in(carrier, part);
  const bool middle = alike(gaps.left, gaps.right) && alike(gaps.top, gaps.bottom);
  if (middle && alike(gaps.left, gaps.top) && gaps.left.nm > 0) {
    const std::string_view round = words::terms(project.language).all_around;
    return maker.from_edge(part, Edge::Right, " " + std::string(round));
  }
  maker.from_edge(part, alike(gaps.left, gaps.right) ? Edge::Left : measured_across(gaps, said));
  maker.from_edge(part, alike(gaps.top, gaps.bottom) ? Edge::Top : measured_down(gaps, said));
}

void add_distances(std::vector<Dimension>& into, const Arrangement& things, Size carrier,
                   const Project& project, const Position& said, const Frame& on) {
  if (!is_measured(things) || is_askew(on)) return;
  add_distances(into, things.part, carrier, project, said, on);
  if (!things.apart || !things.first || !things.second) return;
  DistanceMaker(into, carrier, project, on)
      .between(*things.first, *things.second, things.kind == Arrangement::Kind::Row);
}

void add_image_distances(Scene& scene, const Project& project, const Impression& impression,
                         Size carrier, const Frame& on) {
  const std::vector<Rect> boxes = impression_boxes(project, impression);
  if (boxes.empty()) return;
  std::vector<Dimension> found;
  add_distances(found, arrangement_of(impression.places, boxes.front().size, impression.rotation),
                carrier, project, impression.position, on);
  for (Dimension& distance : found) {
    const bool said = std::ranges::any_of(scene.dimensions, [&](const Dimension& other) {
      return other.from == distance.from && other.to == distance.to;
    });
    if (said) continue;
    distance.brief = true; // the step says it too
    distance.gap = false;
    distance.rank = 2;
    scene.dimensions.push_back(std::move(distance));
  }
}

} // namespace leafwright::figure
