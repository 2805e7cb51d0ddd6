#include "plan/fit/internal/placed_on_face.h"

#include "measure/index.h"

#include <algorithm>
#include <utility>

namespace leafwright::fit {

namespace {

constexpr Angle whole_turn = degrees(360);

bool is_turned(Angle angle) { return angle.udeg % whole_turn.udeg != 0; }

Point corner_of(const Piece& piece, int copy) {
  if (copy <= 0 || as_index(copy) > piece.more_at.size()) return piece.at;
  return piece.more_at[as_index(copy - 1)];
}

Path rectangle(Rect box) {
  Shape plain;
  return moved(outline_path(plain, box.size), box.origin);
}

// From the piece's own box to what it lies on.
Path onto_carrier(Path path, const Piece& piece, int copy) {
  if (is_turned(piece.rotation))
    path = turned(path, piece.rotation, {piece.size.width / 2, piece.size.height / 2});
  return moved(std::move(path), corner_of(piece, copy));
}

// `path` is in the coordinates of `on`; follows pieces down to the face.
std::optional<std::pair<Carrier, Path>> down(const Card& card, Carrier on, Path path) {
  for (std::size_t steps = 0; on.kind == Carrier::Kind::Piece; ++steps) {
    const Piece* piece = piece_of(card, on);
    if (!piece || steps > card.pieces.size()) return std::nullopt;
    path = onto_carrier(std::move(path), *piece, 0);
    on = piece->on;
  }
  return std::pair(on, std::move(path));
}

// Whether a turn anywhere below makes outlines differ from boxes.
bool any_turn(const Card& card, Carrier on) {
  for (std::size_t steps = 0; on.kind == Carrier::Kind::Piece && steps <= card.pieces.size();
       ++steps) {
    const Piece* piece = piece_of(card, on);
    if (!piece) return false;
    if (is_turned(piece->rotation)) return true;
    on = piece->on;
  }
  return false;
}

std::optional<PlacedOnFace> settled(std::optional<std::pair<Carrier, Path>> found) {
  if (!found) return std::nullopt;
  return PlacedOnFace{found->first, bounds(found->second)};
}

} // namespace

int copies_of(const Piece& piece) {
  return std::clamp(piece.copies, 1, static_cast<int>(piece.more_at.size()) + 1);
}

Rect box_on_carrier(const Piece& piece, int copy) {
  // A drawn outline may leave a little of its box free.
  if (!is_turned(piece.rotation) && piece.shape.outline != Shape::Outline::Free)
    return {corner_of(piece, copy), piece.size};
  return bounds(onto_carrier(outline_path(piece.shape, piece.size), piece, copy));
}

bool goes_round(const Card& card, const Piece& piece) {
  if (piece.role != Piece::Role::Band || is_turned(piece.rotation)) return false;
  Size size{};
  if (const Face* face = face_of(card, piece.on)) size = face->size;
  if (const Piece* below = piece_of(card, piece.on)) size = below->size;
  return runs_across(piece) ? piece.size.width > size.width : piece.size.height > size.height;
}

Rect visible_box(const Card& card, const Piece& piece, int copy) {
  Rect box = box_on_carrier(piece, copy);
  if (!goes_round(card, piece)) return box;
  const Face* face = face_of(card, piece.on);
  const Piece* below = piece_of(card, piece.on);
  const Size size = face ? face->size : below ? below->size : box.size;
  if (runs_across(piece)) return {{{}, box.top()}, {size.width, box.size.height}};
  return {{box.left(), {}}, {box.size.width, size.height}};
}

std::optional<PlacedOnFace> lying_of(const Card& card, std::size_t index, int copy) {
  if (index >= card.pieces.size()) return std::nullopt;
  const Piece& piece = card.pieces[index];
  if (piece.role == Piece::Role::Base) return std::nullopt;
  if (!is_turned(piece.rotation) && !any_turn(card, piece.on))
    return lying_of(card, piece.on, visible_box(card, piece, copy));
  Path outline = onto_carrier(outline_path(piece.shape, piece.size), piece, copy);
  return settled(down(card, piece.on, std::move(outline)));
}

std::optional<PlacedOnFace> lying_of(const Card& card, Carrier on, Rect box) {
  return settled(down(card, on, rectangle(box)));
}

const Face* face_of(const Card& card, Carrier carrier) {
  if (carrier.kind != Carrier::Kind::Face || carrier.index < 0 ||
      as_index(carrier.index) >= card.plan.faces.size())
    return nullptr;
  return &card.plan.faces[as_index(carrier.index)];
}

const Piece* piece_of(const Card& card, Carrier carrier) {
  if (carrier.kind != Carrier::Kind::Piece || carrier.index < 0 ||
      as_index(carrier.index) >= card.pieces.size())
    return nullptr;
  return &card.pieces[as_index(carrier.index)];
}

const Face::Seen* seen_of(const Face& face) {
  return face.seen.empty() ? nullptr : &face.seen.front();
}

Size view_size(const FormPlan& plan, View view) {
  switch (view) {
  case View::Front: return plan.front_view;
  case View::Inside: return plan.inside_view;
  case View::Back: break;
  }
  return plan.back_view;
}

Rect impression_box(const Impression& impression, Size image, std::size_t place) {
  const Point corner = impression.places.at(place);
  if (!is_turned(impression.rotation)) return {corner, image};
  return bounds(moved(
      turned(rectangle({{}, image}), impression.rotation, {image.width / 2, image.height / 2}),
      corner));
}

Rect ribbon_box(const RibbonUse& use, Length width, Size carrier) {
  if (use.vertical) return {{use.at - width / 2, {}}, {width, carrier.height}};
  return {{{}, use.at - width / 2}, {carrier.width, width}};
}

} // namespace leafwright::fit
