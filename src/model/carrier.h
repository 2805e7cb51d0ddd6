#pragma once

#include "model/project.h"

#include <optional>

// What a thing lies on, how large that is, and where the thing comes to lie once what carries it is
// followed down to a face of the card or a side of its envelope. Whoever checks, draws, tells or
// compares places asks here, so that all of them see one card.
//
//   carrier_size(project, card, piece.on)         // of the face, the piece or the envelope
//   if (auto placed = placed_on_face(project, card, index)) placed->root, placed->box

namespace leafwright {

const Face* face_of(const Card& card, Carrier carrier);   // nullptr unless a known face
const Piece* piece_of(const Card& card, Carrier carrier); // nullptr unless a known piece
const Piece* base_of(const Card& card);                   // nullptr when its first piece is none

constexpr bool is_envelope(Carrier carrier) {
  return carrier.kind == Carrier::Kind::EnvelopeFront ||
         carrier.kind == Carrier::Kind::EnvelopeInside;
}

// A card's envelope as it lies to be stamped, lined and addressed: one of a named size with its
// longer side across (as it was read), one of a measure as that was written. Nothing known is
// 0 x 0.
Size envelope_as_it_lies(const Project& project, const Card& card);

// Nothing known is 0 x 0.
Size carrier_size(const Project& project, const Card& card, Carrier carrier);

// What the thing of a build entry lies on; nothing for the base and for a step alone.
std::optional<Carrier> carrier_of(const Card& card, const Build& build);
// Where the thing of a build entry, or the step, stands in the file.
Place place_of(const Card& card, const Build& build);

// The face that shows the whole of the base, with its measures: "opened", or the front of a card
// that does not open. What lies on the base lies there.
Carrier whole_face(const Card& card);

// The face, or the side of the envelope, at the bottom of the chain of carriers: never a piece.
// Nothing when they run in a circle or one is missing.
std::optional<Carrier> root_of(const Card& card, Carrier on);
// Whether what lies there is seen on that side of the card.
bool seen_in(const Card& card, Carrier on, View view);

// The view that shows a face first and best; nullptr when none does.
const Face::Seen* best_seen(const Face& face);
Size view_size(const FormPlan& plan, View view);

// The bounding box of a piece on what it lies on; `copy` 0 is the first, 1.. those at more_at.
// Turned and drawn pieces are measured by their outline, so that a turned circle does not grow and
// nothing is asked of the free corners of a box.
Rect box_on_carrier(const Piece& piece, int copy = 0);
int copies_of(const Piece& piece);

// Whether it is a band long enough to leave what carries it, and along which side it runs.
bool goes_round(const Project& project, const Card& card, const Piece& piece);
constexpr bool runs_across(const Piece& band) { return band.size.width >= band.size.height; }
// The part of a piece that is seen there: a band that goes round ends at the edges.
Rect visible_box(const Project& project, const Card& card, const Piece& piece, int copy = 0);

// A box on the face, or the side of the envelope, at the bottom of the chain of carriers.
struct PlacedOnFace {
  Carrier root; // never a piece
  Rect box;
};
// Of the visible part of a piece. Nothing for a base, or when there is no root.
std::optional<PlacedOnFace> placed_on_face(const Project& project, const Card& card,
                                           std::size_t piece, int copy = 0);
// Of a box given in the coordinates of `on`.
std::optional<PlacedOnFace> placed_on_face(const Card& card, Carrier on, Rect box);

// The box of an impression's image at one of its places, turned as it is, on its carrier.
Rect impression_box(const Impression& impression, Size image, std::size_t place);
// The box of a ribbon where it runs over what carries it.
Rect ribbon_box(const RibbonUse& use, Length width, Size carrier);

} // namespace leafwright
