#include "measure/index.h"
#include "model/carrier.h"
#include "model/form.h"
#include "plan/fit/internal/rules.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <string>

// Work that is done in an order in which the hands cannot do it, or spoil what is done.

namespace leafwright::fit {

namespace {

bool has_own_words(const Card& card, const std::string& id) {
  return !id.empty() &&
         std::ranges::any_of(card.steps, [&](const AuthorStep& step) { return step.for_id == id; });
}

std::optional<std::size_t> when(const Card& card, Build::Kind kind, std::size_t index) {
  for (std::size_t i = 0; i < card.build.size(); ++i)
    if (card.build[i].kind == kind && card.build[i].index == static_cast<int>(index)) return i;
  return std::nullopt;
}

bool has_hole(const Piece& piece) {
  return piece.shape.outline == Shape::Outline::Tag && piece.shape.radius > Length{};
}

bool is_stuck(const Piece& piece) { return piece.attach.adhesive >= 0; }

// Where the closed front opens: a layer across it, or past the edge, hangs free in part.
bool hangs_free(const Case& c, const Piece& piece) {
  if (!is_stuck(piece) || piece.role != Piece::Role::Panel) return false;
  if (piece.may_overhang) return true;
  const Face* face = face_of(c.card, piece.on);
  const std::optional<Length> seam = opening_edge(c.card.plan);
  if (!face || face->id != "front" || !seam || c.card.plan.front_leaves.size() != 2) return false;
  const Rect box = visible_box(c.project, c.card, piece);
  return box.left() < *seam && box.right() > *seam;
}

} // namespace

void threaded_late(const Case& c, Reporter& report) {
  for (std::size_t i = 0; i < c.card.ribbons.size(); ++i) {
    const RibbonUse& use = c.card.ribbons[i];
    const Piece* piece = piece_of(c.card, use.on);
    const bool tied = use.as == RibbonUse::As::Knot || use.as == RibbonUse::As::Bow;
    if (!piece || !tied || !has_hole(*piece) || !is_stuck(*piece)) continue;
    const auto stuck = when(c.card, Build::Kind::Piece, as_index(use.on.index));
    const auto threaded = when(c.card, Build::Kind::Ribbon, i);
    if (!stuck || !threaded || *threaded < *stuck || has_own_words(c.card, piece->id)) continue;
    // Right after its piece it is told before the piece is stuck.
    if (*threaded == *stuck + 1 && !has_own_words(c.card, use.id)) continue;
    report(use.place,
           fmt::format("{} is threaded through {} after that is stuck down",
                       item_name(c.project, {ItemKind::Ribbon, use.ribbon}), the(*piece, c.card)),
           "a cord that is threaded while its piece is in the hand",
           fmt::format("write the ribbon right after {}: then the steps thread it first",
                       the(*piece)));
  }
}

void pressed_on_hanging(const Case& c, Reporter& report) {
  for (std::size_t i = 0; i < c.card.pieces.size(); ++i) {
    const Piece& piece = c.card.pieces[i];
    const Piece* carrier = piece_of(c.card, piece.on);
    if (!carrier || !is_stuck(piece) || !hangs_free(c, *carrier) || has_own_words(c.card, piece.id))
      continue;
    const auto hung = when(c.card, Build::Kind::Piece, as_index(piece.on.index));
    const auto pressed = when(c.card, Build::Kind::Piece, i);
    if (!hung || !pressed || *pressed < *hung) continue;
    report(piece.place,
           fmt::format("{} is pressed onto {}, and part of that hangs free", the(piece, c.card),
                       the(*carrier)),
           "something firm beneath what is pressed on",
           fmt::format("write <step for=\"{}\"> that says to support {} from behind", piece.id,
                       the(*carrier)));
  }
}

void wrapped_over_stamping(const Case& c, Reporter& report) {
  for (std::size_t i = 0; i < c.card.ribbons.size(); ++i) {
    const RibbonUse& use = c.card.ribbons[i];
    const Face* face = face_of(c.card, use.on);
    const Ribbon* ribbon = find_at(c.project.ribbons, use.ribbon);
    if (!face || !ribbon || use.as != RibbonUse::As::Wrap || has_own_words(c.card, use.id))
      continue;
    const std::optional<Behind> strip =
        behind(c.card.plan, *face, ribbon_box(use, ribbon->width, face->size));
    const auto wrapped = when(c.card, Build::Kind::Ribbon, i);
    if (!strip || !wrapped) continue;
    for (std::size_t p = 0; p < c.card.pieces.size(); ++p) {
      const Piece& piece = c.card.pieces[p];
      const auto laid = when(c.card, Build::Kind::Piece, p);
      if (piece.stamped.empty() || !laid || *laid > *wrapped) continue;
      const auto placed = placed_on_face(c.project, c.card, p);
      if (!placed || placed->root != Carrier{Carrier::Kind::Face, strip->face} ||
          !placed->box.overlaps(strip->box))
        continue;
      report(use.place,
             fmt::format("{} goes round {} of “{}” and lies over {}, which is stamped and in place",
                         ribbon->name, carrier_words(c.card, use.on), c.card.title, the(piece)),
             "a ribbon whose ends a later layer covers",
             fmt::format("write {} after the ribbon", the(piece)));
      break;
    }
  }
}

} // namespace leafwright::fit
