#pragma once

#include "model/card.h"

#include <vector>

namespace leafwright {

// Where a piece is scored: a base without scores of its own has those of its card's form.
inline const std::vector<Score>& scores_of(const Card& card, const Piece& piece) {
  const bool of_form = piece.role == Piece::Role::Base && piece.scores.empty();
  return of_form ? card.plan.scores : piece.scores;
}

} // namespace leafwright
