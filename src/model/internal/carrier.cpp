#include "model/carrier.h"

#include "measure/index.h"
#include "model/form.h"

#include <algorithm>
#include <utility>

namespace leafwright {

const Face* face_of(const Card& card, Carrier carrier) {
  return carrier.kind == Carrier::Kind::Face ? find_at(card.plan.faces, carrier.index) : nullptr;
}

const Piece* piece_of(const Card& card, Carrier carrier) {
  return carrier.kind == Carrier::Kind::Piece ? find_at(card.pieces, carrier.index) : nullptr;
}

const Piece* base_of(const Card& card) {
  if (card.pieces.empty() || card.pieces.front().role != Piece::Role::Base) return nullptr;
  return &card.pieces.front();
}

Size envelope_as_it_lies(const Project& project, const Card& card) {
  const Envelope* envelope = find_at(project.envelopes, card.envelope);
  return envelope != nullptr ? envelope->size : Size{};
}

Size carrier_size(const Project& project, const Card& card, Carrier carrier) {
  if (const Face* face = face_of(card, carrier)) return face->size;
  if (const Piece* piece = piece_of(card, carrier)) return piece->size;
  return is_envelope(carrier) ? envelope_as_it_lies(project, card) : Size{};
}

std::optional<Carrier> carrier_of(const Card& card, const Build& build) {
  const auto on = [](const auto* thing) { return thing ? std::optional(thing->on) : std::nullopt; };
  switch (build.kind) {
  case Build::Kind::Piece: {
    const Piece* piece = find_at(card.pieces, build.index);
    return on(piece && piece->role != Piece::Role::Base ? piece : nullptr);
  }
  case Build::Kind::Ribbon: return on(find_at(card.ribbons, build.index));
  case Build::Kind::Embellishment: return on(find_at(card.embellishments, build.index));
  case Build::Kind::Stamping: return on(find_at(card.face_stampings, build.index));
  case Build::Kind::Step: break;
  }
  return std::nullopt;
}

Place place_of(const Card& card, const Build& build) {
  const auto place = [](const auto* thing) { return thing ? thing->place : Place{}; };
  switch (build.kind) {
  case Build::Kind::Piece: return place(find_at(card.pieces, build.index));
  case Build::Kind::Ribbon: return place(find_at(card.ribbons, build.index));
  case Build::Kind::Embellishment: return place(find_at(card.embellishments, build.index));
  case Build::Kind::Stamping: {
    const FaceStamping* stamping = find_at(card.face_stampings, build.index);
    return place(stamping ? &stamping->impression : nullptr);
  }
  case Build::Kind::Step: return place(find_at(card.steps, build.index));
  }
  return {};
}

Carrier whole_face(const Card& card) {
  const int opened = face_index(card.plan, "opened");
  return {Carrier::Kind::Face, opened >= 0 ? opened : face_index(card.plan, "front")};
}

namespace {

constexpr Angle whole_turn = degrees(360);

bool is_turned(Angle angle) { return angle.udeg % whole_turn.udeg != 0; }

// From carrier to carrier, `step(piece)` for each piece on the way, down to what is none.
template <class Step>
std::optional<Carrier> follow_down(const Card& card, Carrier on, Step step) {
  for (std::size_t steps = 0; on.kind == Carrier::Kind::Piece; ++steps) {
    const Piece* piece = piece_of(card, on);
    if (!piece || steps > card.pieces.size()) return std::nullopt;
    if (piece->role == Piece::Role::Base) return whole_face(card);
    step(*piece);
    on = piece->on;
  }
  return on;
}

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

// `path` is in the coordinates of `on`.
std::optional<PlacedOnFace> settled(const Card& card, Carrier on, Path path) {
  const auto root = follow_down(
      card, on, [&](const Piece& piece) { path = onto_carrier(std::move(path), piece, 0); });
  if (!root) return std::nullopt;
  return PlacedOnFace{*root, bounds(path)};
}

// Whether a turn anywhere below makes outlines differ from boxes.
bool any_turn(const Card& card, Carrier on) {
  bool any = false;
  follow_down(card, on, [&](const Piece& piece) { any = any || is_turned(piece.rotation); });
  return any;
}

} // namespace

std::optional<Carrier> root_of(const Card& card, Carrier on) {
  return follow_down(card, on, [](const Piece&) {});
}

bool seen_in(const Card& card, Carrier on, View view) {
  const std::optional<Carrier> root = root_of(card, on);
  const Face* face = root ? face_of(card, *root) : nullptr;
  return face &&
         std::ranges::any_of(face->seen, [&](const Face::Seen& one) { return one.view == view; });
}

const Face::Seen* best_seen(const Face& face) {
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

int copies_of(const Piece& piece) {
  return std::clamp(piece.copies, 1, static_cast<int>(piece.more_at.size()) + 1);
}

Rect box_on_carrier(const Piece& piece, int copy) {
  // A drawn outline may leave a little of its box free.
  if (!is_turned(piece.rotation) && piece.shape.outline != Shape::Outline::Free)
    return {corner_of(piece, copy), piece.size};
  return bounds(onto_carrier(outline_path(piece.shape, piece.size), piece, copy));
}

bool goes_round(const Project& project, const Card& card, const Piece& piece) {
  if (piece.role != Piece::Role::Band || is_turned(piece.rotation)) return false;
  const Size below = carrier_size(project, card, piece.on);
  return runs_across(piece) ? piece.size.width > below.width : piece.size.height > below.height;
}

Rect visible_box(const Project& project, const Card& card, const Piece& piece, int copy) {
  const Rect box = box_on_carrier(piece, copy);
  const Size below = carrier_size(project, card, piece.on);
  if (below == Size{} || !goes_round(project, card, piece)) return box;
  if (runs_across(piece)) return {{{}, box.top()}, {below.width, box.size.height}};
  return {{box.left(), {}}, {box.size.width, below.height}};
}

std::optional<PlacedOnFace> placed_on_face(const Project& project, const Card& card,
                                           std::size_t index, int copy) {
  if (index >= card.pieces.size()) return std::nullopt;
  const Piece& piece = card.pieces[index];
  if (piece.role == Piece::Role::Base) return std::nullopt;
  if (!is_turned(piece.rotation) && !any_turn(card, piece.on))
    return placed_on_face(card, piece.on, visible_box(project, card, piece, copy));
  return settled(card, piece.on, onto_carrier(outline_path(piece.shape, piece.size), piece, copy));
}

std::optional<PlacedOnFace> placed_on_face(const Card& card, Carrier on, Rect box) {
  return settled(card, on, rectangle(box));
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

} // namespace leafwright
