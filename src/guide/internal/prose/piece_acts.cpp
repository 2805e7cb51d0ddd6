#include "guide/internal/prose/step_words.h"

#include "guide/prose.h"
#include "model/technique.h"

#include <algorithm>

// What is done to a piece before it is fixed, and in which order.

namespace leafwright::guide {
namespace {

Work work_of(const Piece& piece, const PieceAct& act) {
  switch (act.kind) {
  case PieceAct::Kind::Cut:
  case PieceAct::Kind::Window: return Work::Cut;
  case PieceAct::Kind::Round: return Work::Round;
  case PieceAct::Kind::Score: return Work::Fold;
  case PieceAct::Kind::Stamp: return Work::Stamp;
  case PieceAct::Kind::Finish: break;
  }
  return technique_row(piece.finishes.at(act.index).kind).work;
}

} // namespace

std::vector<PieceAct> acts_on(const Piece& piece) {
  using Kind = PieceAct::Kind;
  std::vector<PieceAct> acts{{Kind::Cut, 0}};
  const auto rounds = [&](std::size_t i) {
    return piece.finishes[i].kind == Finish::Kind::CornersRounded;
  };
  for (std::size_t i = 0; i < piece.finishes.size(); ++i)
    if (rounds(i)) acts.push_back({Kind::Round, i});
  for (std::size_t i = 0; i < piece.windows.size(); ++i) acts.push_back({Kind::Window, i});
  if (piece.role != Piece::Role::Base && !piece.scores.empty()) acts.push_back({Kind::Score, 0});
  const auto as_written = [&](std::size_t i) {
    return technique_row(piece.finishes[i].kind).as_written;
  };
  const auto add_written_before = [&](std::size_t image) {
    for (std::size_t i = 0; i < piece.finishes.size(); ++i)
      if (as_written(i) && std::min(piece.finishes[i].images, piece.stamped.size()) == image)
        acts.push_back({Kind::Finish, i});
  };
  for (std::size_t i = 0; i < piece.stamped.size(); ++i) {
    add_written_before(i);
    acts.push_back({Kind::Stamp, i});
  }
  add_written_before(piece.stamped.size());
  for (std::size_t i = 0; i < piece.finishes.size(); ++i)
    if (!rounds(i) && !as_written(i)) acts.push_back({Kind::Finish, i});
  return acts;
}

Preparation preparation_beside(const StepContext& context, const StepPieces& pieces, Works told) {
  const Piece& piece = first_of(context, pieces);
  std::vector<PieceAct> acts = acts_on(piece);
  std::erase_if(acts, [&](const PieceAct& act) { return told.has(work_of(piece, act)); });
  return preparation(context, pieces, acts);
}

bool comes_die_cut(const StepContext& context, const Piece& piece) {
  return context.ready.die_cut && piece.cut == Piece::CutBy::Die;
}

bool comes_stamped(const StepContext& context, const Piece& piece) {
  return context.ready.stamped && !piece.stamped.empty();
}

bool needs_own_step(const StepContext& context, const Piece& piece) {
  if (std::ranges::any_of(piece.finishes,
                          [](const Finish& one) { return drying_minutes(one) > 0; }))
    return true;
  if (comes_stamped(context, piece)) return false;
  return std::any_of(piece.stamped.begin(), piece.stamped.end(), [](const Impression& one) {
    return one.method == Impression::Method::HeatEmbossed ||
           one.method == Impression::Method::Masked || prints(one) > 4;
  });
}

bool is_traced(const Piece& piece) {
  const bool plain = piece.shape.outline == Shape::Outline::Rectangle;
  return !plain && piece.role != Piece::Role::Base && piece.cut != Piece::CutBy::Die &&
         piece.cut != Piece::CutBy::Punch;
}

} // namespace leafwright::guide
