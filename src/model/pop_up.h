#pragma once

#include "model/form.h"

#include <optional>

// The box that stands up in an opened card. It is cut from the base by two slits across the fold,
// each `height` long behind it and `depth` long before it, and scored between their ends and along
// its upper front edge: the front is as high as the back, the top as deep as the ground, so that
// the box is a parallelogram from the side and folds flat with the card.

namespace leafwright {

// The fold that a pop-up stands across, from the top of the base; nothing where the form has none.
std::optional<Length> pop_up_fold(const Card& card);

// Adds its front to the faces of the card. The card has such a fold.
void add_pop_up(Card& card, PopUp pop_up);

// The part of the base between its slits, and the part of that which becomes its front.
Rect pop_up_cut(const Card& card, const PopUp& pop_up);
Rect pop_up_front(const Card& card, const PopUp& pop_up);

// In the closed card, how far from the fold a point lies that is `above` the foot of its front.
constexpr Length reach_when_closed(const PopUp& pop_up, Length above) {
  return pop_up.depth + above;
}

// A box on its front, where it lies on the front of the closed card: upside down, its foot nearest
// to the fold.
Rect pop_up_folded(const PopUp& pop_up, Rect on_front);

} // namespace leafwright
