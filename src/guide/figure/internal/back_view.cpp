#include "guide/figure/internal/scene_parts.h"
#include "measure/index.h"
#include "model/carrier.h"
#include "model/form.h"
#include "model/sticking.h"
#include "plan/supply/needs.h"

#include <algorithm>
#include <type_traits>

namespace leafwright::figure {

namespace {

// Squares or dots round the edge of a piece, as many as it takes, from its top left corner.
std::vector<Point> adhesive_places(Size piece, Size square, std::int64_t count, bool strip) {
  std::vector<Point> places;
  const double x0 = 0.62 * static_cast<double>(square.width.nm) + 1.2e6;
  const double y0 = 0.62 * static_cast<double>(square.height.nm) + 1.2e6;
  const double w = std::max(static_cast<double>(piece.width.nm) - 2 * x0, 0.0);
  const double h = std::max(static_cast<double>(piece.height.nm) - 2 * y0, 0.0);
  const auto add = [&](double x, double y) { places.push_back({from_nm(x), from_nm(y)}); };
  if (strip) {
    const bool level = piece.width >= piece.height;
    for (std::int64_t i = 0; i < count; ++i) {
      const double share =
          count > 1 ? static_cast<double>(i) / static_cast<double>(count - 1) : 0.5;
      add(x0 + w * (level ? share : 0.5), y0 + h * (level ? 0.5 : share));
    }
    return places;
  }
  if (count == 1) {
    add(x0 + w / 2, y0 + h / 2);
    return places;
  }
  for (const auto& [u, v] : {std::pair{0.0, 0.0}, {1.0, 1.0}, {1.0, 0.0}, {0.0, 1.0}})
    if (static_cast<std::int64_t>(places.size()) < count) add(x0 + w * u, y0 + h * v);
  const auto more = count - static_cast<std::int64_t>(places.size());
  for (std::int64_t i = 0; i < more; ++i) { // between the corners, round the edge
    const double along = 2 * (w + h) * (static_cast<double>(i) + 0.5) / static_cast<double>(more);
    if (along < w)
      add(x0 + along, y0);
    else if (along < w + h)
      add(x0 + w, y0 + along - w);
    else if (along < 2 * w + h)
      add(x0 + 2 * w + h - along, y0 + h);
    else
      add(x0, y0 + 2 * (w + h) - along);
  }
  return places;
}

bool fills_its_corners(const Shape& shape) {
  switch (shape.outline) {
  case Shape::Outline::Rectangle:
  case Shape::Outline::Rounded:
  case Shape::Outline::Scalloped:
  case Shape::Outline::Tag:
  case Shape::Outline::Banner: return true;
  case Shape::Outline::Circle:
  case Shape::Outline::Oval:
  case Shape::Outline::ScallopedCircle:
  case Shape::Outline::Star:
  case Shape::Outline::Polygon:
  case Shape::Outline::Free: break;
  }
  return false;
}

// From the corner of a box to the edge of an oval in it.
Point drawn_in(Point place, Size box) {
  const Point c{box.width / 2, box.height / 2};
  return {c.x + (place.x - c.x) * 7 / 10, c.y + (place.y - c.y) * 7 / 10};
}

// A gate's two leaves part in the middle: what lies across both is stuck to the left one alone.
Length stuck_width(const Card& card, const Piece& piece) {
  const Face* face = face_of(card, piece.on);
  const std::optional<Length> seam = opening_edge(card.plan);
  const bool gates = seam && card.plan.front_leaves.size() == 2;
  if (!gates || !face || face->id != "front" || piece.at.x >= *seam ||
      piece.at.x + piece.size.width <= *seam)
    return piece.size.width;
  return *seam - piece.at.x;
}

// The back of a piece, pale and without what is on its front.
Items bare_back(const Project& project, const Piece& piece) {
  Items back;
  Piece plain = piece;
  plain.stamped.clear();
  plain.finishes.clear();
  Project pale = project;
  const auto stock = as_index(std::max(piece.stock, 0));
  if (piece.stock >= 0 && stock < pale.stocks.size()) {
    pale.stocks.at(stock).pattern = Stock::Pattern::Plain;
    pale.stocks.at(stock).colour = mixed(pale.stocks.at(stock).colour, {255, 255, 255}, 0.6);
  }
  draw_piece(back, pale, plain, Frame{});
  for (SceneItem& item : back)
    std::visit(
        [&](auto& shape) {
          if constexpr (requires { shape.path; })
            shape.path = moved(scaled(shape.path, -1, 1), {piece.size.width, none});
        },
        item);
  return back;
}

// Foam or dots in their places all over the piece.
void set_squares(Items& back, const Card& card, const Piece& piece, const Adhesive& adhesive) {
  const Size held{stuck_width(card, piece), piece.size.height};
  const bool strip = supply::is_strip(held, adhesive);
  const supply::Consumption taken = supply::consumption_of(adhesive, piece.attach, held);
  const std::int64_t layers = std::max(piece.attach.layers, 1);
  const std::int64_t count = std::clamp<std::int64_t>(taken.count / layers, 1, 60);
  std::vector<Point> places = adhesive_places(held, adhesive.piece, count, strip);
  if (!fills_its_corners(piece.shape))
    for (Point& place : places) place = drawn_in(place, held);
  for (const Point place : places) {
    const Point middle{piece.size.width - place.x, place.y};
    const Rect box{{middle.x - adhesive.piece.width / 2, middle.y - adhesive.piece.height / 2},
                   adhesive.piece};
    const Path shape = adhesive.kind == Adhesive::Kind::Dots ? oval(box) : rectangle(box);
    soft_shadow(back, shape, 0);
    fill(back, shape, {255, 255, 255});
    drawn_stroke(back, shape, line_ink, points(0.6));
  }
}

// Where adhesive goes and where none does must be told apart in gray: a fine hatch on white.
void hatch_parts(Items& back, const Piece& piece, const std::vector<Rect>& parts) {
  constexpr Length apart = micrometres(1600);
  Path outline = piece_outline(piece);
  outline = moved(scaled(outline, -1, 1), {piece.size.width, none});
  back.emplace_back(SceneClip{outline});
  for (const Rect& part : parts) {
    const Rect seen{{piece.size.width - part.right(), part.top()}, part.size};
    fill(back, rectangle(seen), {255, 255, 255}, 0.85);
    draw_waste(back, seen, apart);
    drawn_stroke(back, rectangle(seen), line_ink, points(0.5));
  }
  back.emplace_back(SceneUnclip{});
}

} // namespace

void show_back(Scene& scene, const Project& project, const Card& card, const Staging& staging,
               int index) {
  const Piece& piece = card.pieces.at(as_index(index));
  if (piece.attach.adhesive < 0 ||
      piece.attach.adhesive >= static_cast<int>(project.adhesives.size()))
    return;
  const Adhesive& adhesive = project.adhesives.at(as_index(piece.attach.adhesive));
  using Kind = Adhesive::Kind;
  const bool squares = adhesive.kind == Kind::Foam || adhesive.kind == Kind::Dots;
  const bool in_part = is_stuck_in_part(piece.attach);
  if ((!squares && !in_part) || piece.role == Piece::Role::Band) return;
  Items back = bare_back(project, piece);
  if (in_part)
    hatch_parts(back, piece, stuck_parts(project, card, piece));
  else
    set_squares(back, card, piece, adhesive);
  const Size card_size = staging.size();
  const bool half =
      piece.size.height * 2 > card_size.height || piece.size.width * 2 > card_size.width;
  const Length gap = millimetres(10);
  const Size shown = half ? Size{piece.size.width / 2, piece.size.height / 2} : piece.size;
  const Point corner{scene.box.right() + gap, scene.box.bottom() - shown.height - millimetres(1)};
  if (half) halve(back);
  append_shifted(scene.items, std::move(back), corner);
  const Rect place{corner, shown};
  if (scene.solid.empty()) scene.solid.push_back(scene.box);
  scene.solid.push_back(place);
  scene.box = united(scene.box, grown(place, millimetres(1)));
  Label label{{"from the back"}, place, true};
  label.anchors = {{place.centre().x, place.bottom()}};
  label.rank = 2;
  scene.labels.push_back(std::move(label));
}

} // namespace leafwright::figure
