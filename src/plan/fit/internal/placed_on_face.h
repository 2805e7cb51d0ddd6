#pragma once

#include "model/card.h"

#include <optional>
#include <vector>

// Where things lie once what carries them is followed down to a face of the card.

namespace leafwright::fit {

// The bounding box of a piece on what it lies on; `copy` 0 is the first, 1.. those at more_at.
// Turned and drawn pieces are measured by their outline, so that a turned circle does not grow and
// nothing is asked of the free corners of a box.
Rect box_on_carrier(const Piece& piece, int copy = 0);
int copies_of(const Piece& piece);

// The part of it that is seen there: a band that goes round what carries it ends at the edges.
Rect visible_box(const Card& card, const Piece& piece, int copy = 0);
// Whether it is a band long enough to leave what carries it, and along which side it runs.
bool goes_round(const Card& card, const Piece& piece);
inline bool runs_across(const Piece& band) { return band.size.width >= band.size.height; }

// The visible box on the face, or the side of the envelope, at the bottom of the chain of carriers.
struct PlacedOnFace {
  Carrier root; // never a piece
  Rect box;
};
// Nothing when the carriers run in a circle or one is missing.
std::optional<PlacedOnFace> lying_of(const Card& card, std::size_t piece, int copy = 0);
// Of a box given in the coordinates of `on`.
std::optional<PlacedOnFace> lying_of(const Card& card, Carrier on, Rect box);

const Face* face_of(const Card& card, Carrier carrier);   // nullptr unless a known face
const Piece* piece_of(const Card& card, Carrier carrier); // nullptr unless a known piece

// Where a face stands in the view that shows it first and best; nullptr when none does.
const Face::Seen* seen_of(const Face& face);
Size view_size(const FormPlan& plan, View view);

// The box of an impression's image at one of its places, turned as it is, on its carrier.
Rect impression_box(const Impression& impression, Size image, std::size_t place);
// The box of a ribbon where it runs over what carries it.
Rect ribbon_box(const RibbonUse& use, Length width, Size carrier);

} // namespace leafwright::fit
