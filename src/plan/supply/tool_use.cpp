#include "plan/supply/tool_use.h"

#include <algorithm>

namespace leafwright::supply {

namespace {

template <class Test>
bool any_piece(const Card& card, Test test) {
  return std::any_of(card.pieces.begin(), card.pieces.end(), test);
}

bool heat_embossed(const Impression& impression) {
  return impression.method == Impression::Method::HeatEmbossed;
}

bool heated(const Card& card) {
  return any_piece(card,
                   [](const Piece& piece) {
                     return std::any_of(piece.stamped.begin(), piece.stamped.end(), heat_embossed);
                   }) ||
         std::any_of(card.face_stampings.begin(), card.face_stampings.end(),
                     [](const FaceStamping& s) { return heat_embossed(s.impression); });
}

bool pressed(const Piece& piece) {
  const auto by_die = [](const Window& window) { return window.die >= 0; };
  const auto embossed = [](const Finish& f) { return f.kind == Finish::Kind::Embossed; };
  return piece.cut == Piece::CutBy::Die || piece.die >= 0 ||
         std::any_of(piece.windows.begin(), piece.windows.end(), by_die) ||
         std::any_of(piece.finishes.begin(), piece.finishes.end(), embossed);
}

bool cut_by_hand(const Piece& piece) {
  const auto by_hand = [](const Window& window) { return window.die < 0; };
  return piece.cut == Piece::CutBy::Scissors ||
         std::any_of(piece.windows.begin(), piece.windows.end(), by_hand);
}

bool named(const Card& card, const Tool& tool) {
  return any_piece(card, [&](const Piece& piece) {
    return std::any_of(piece.finishes.begin(), piece.finishes.end(), [&](const Finish& f) {
      return !f.with.empty() && (f.with == tool.id || f.with == tool.name);
    });
  });
}

} // namespace

bool uses_tool(const Card& card, const Tool& tool) {
  if (named(card, tool)) return true;
  if (tool.cut_length > Length{})
    return any_piece(card, [](const Piece& p) { return p.cut != Piece::CutBy::Punch; });
  switch (tool.risk) {
  case Tool::Risk::Blade: return any_piece(card, cut_by_hand);
  case Tool::Risk::Heat: return heated(card);
  case Tool::Risk::Pressure: return any_piece(card, pressed);
  case Tool::Risk::None: break;
  }
  return true;
}

} // namespace leafwright::supply
