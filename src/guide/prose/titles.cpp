#include "guide/prose/titles.h"

#include "guide/prose/fixing.h"
#include "guide/prose/naming.h"
#include "guide/prose/preparing.h"
#include "guide/words/article.h"
#include "measure/index.h"

#include <algorithm>

namespace leafwright::guide {
namespace {

bool is_inside(const Card& card, const Carrier& on) {
  if (on.kind != Carrier::Kind::Face || on.index < 0 ||
      as_index(on.index) >= card.plan.faces.size())
    return false;
  const Face& face = card.plan.faces[as_index(on.index)];
  // The inside of a Z is also seen from the front.
  return face.id.starts_with("inside") &&
         std::none_of(face.seen.begin(), face.seen.end(),
                      [](const Face::Seen& one) { return one.view == View::Front; });
}

// The first thing laid on its carrier, with the carrier seen around it.
bool lies_at_the_bottom(const Telling& telling, int index) {
  const Piece* piece = piece_at(telling.card, index);
  return piece && piece->on.kind == Carrier::Kind::Face && surface_shows(telling.card, index);
}

} // namespace

std::string piece_title(const Telling& telling, const Together& pieces, bool prepared) {
  const Piece& piece = first_of(telling, pieces);
  const std::string the = "the " + together_noun(telling, pieces);
  const bool stamped = !piece.stamped.empty() && !comes_stamped(telling, piece);
  if (piece.on.kind == Carrier::Kind::EnvelopeInside) return "Line the envelope";
  if (piece.role == Piece::Role::Liner) return "Line the inside";
  if (piece.role == Piece::Role::Band) return "Wrap " + the;
  if (!prepared && stamped && !piece.attach.raised) return "Stamp " + the;
  if (piece.attach.raised) return "Raise " + the;
  if (is_inside(telling.card, piece.on) && pieces.size() == 1 && !prepared)
    return "Line the inside";
  return (lies_at_the_bottom(telling, pieces.front()) ? "Lay " : "Add ") + the;
}

std::string preparing_title(const Telling& telling, const Together& pieces) {
  const Piece& piece = first_of(telling, pieces);
  const std::string the = "the " + together_noun(telling, pieces);
  return (piece.stamped.empty() || comes_stamped(telling, piece) ? "Cut " : "Stamp ") + the;
}

std::string stamping_title(const Telling& telling, const Carrier& on) {
  switch (on.kind) {
  case Carrier::Kind::EnvelopeFront:
  case Carrier::Kind::EnvelopeInside: return "Stamp the envelope";
  case Carrier::Kind::Piece: {
    const Piece* piece = piece_at(telling.card, on.index);
    return piece ? "Stamp the " + piece_noun(*piece) : "Stamp the panel";
  }
  case Carrier::Kind::Face: break;
  }
  if (is_inside(telling.card, on)) return "Stamp the inside";
  return "Stamp " + face_words(telling.card, on.index);
}

} // namespace leafwright::guide
