#include "measure/index.h"
#include "model/carrier.h"
#include "model/sticking.h"
#include "plan/fit/internal/rules.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

// What is tucked into a pocket: room beside it, and something to pull it out by.

namespace leafwright::fit {

namespace {

struct Tucked {
  const Piece& piece;
  const Piece& pocket;
  Rect box, pocket_box; // on one face
};

template <class Do>
void for_each_tucked(const Case& c, Do act) {
  for (std::size_t i = 0; i < c.card.pieces.size(); ++i) {
    const Piece& piece = c.card.pieces[i];
    const int index = pocket_of(c.card, piece);
    if (index < 0) continue;
    const Piece& pocket = c.card.pieces[as_index(index)];
    const auto placed = placed_on_face(c.project, c.card, i);
    const auto holder = placed_on_face(c.project, c.card, as_index(index));
    if (!placed || !holder || placed->root != holder->root || piece.rotation.udeg != 0 ||
        pocket.rotation.udeg != 0)
      continue;
    act(Tucked{piece, pocket, placed->box, holder->box});
  }
}

bool opens_level(const Piece& pocket) {
  return pocket.attach.where == Attach::Where::OpenLeft ||
         pocket.attach.where == Attach::Where::OpenRight;
}

// How far it stands out of the open side.
Length stands_out(const Tucked& tucked) {
  switch (tucked.pocket.attach.where) {
  case Attach::Where::OpenTop: return tucked.pocket_box.top() - tucked.box.top();
  case Attach::Where::OpenBottom: return tucked.box.bottom() - tucked.pocket_box.bottom();
  case Attach::Where::OpenLeft: return tucked.pocket_box.left() - tucked.box.left();
  case Attach::Where::OpenRight: return tucked.box.right() - tucked.pocket_box.right();
  default: return {};
  }
}

} // namespace

void pocket_too_narrow(const Case& c, Reporter& report) {
  for_each_tucked(c, [&](const Tucked& tucked) {
    const Rect room = room_of_pocket(c.project, c.card, tucked.pocket);
    const bool level = opens_level(tucked.pocket);
    const Length has = level ? room.size.height : room.size.width;
    const Length takes = level ? tucked.box.size.height : tucked.box.size.width;
    const Length free = pocket_clearance(c.project.printing) * 2;
    if (takes + free <= has) return;
    report(known(tucked.piece.size_place, tucked.piece.place),
           fmt::format("{} is {} {}, and {} has {} between its lines of adhesive",
                       the(tucked.piece, c.card), report.unrounded(takes), level ? "tall" : "wide",
                       the(tucked.pocket), report.unrounded(has)),
           fmt::format("{} of room on both sides, so that it slides",
                       report.unrounded(pocket_clearance(c.project.printing))),
           fmt::format("make it {} {} or less", report.unrounded(has - free),
                       level ? "tall" : "wide"));
  });
}

void pocket_misses(const Case& c, Reporter& report) {
  for_each_tucked(c, [&](const Tucked& tucked) {
    const Rect room = room_of_pocket(c.project, c.card, tucked.pocket);
    const Rect place{tucked.pocket_box.origin + room.origin, room.size};
    Past over = past(tucked.box, place);
    using Where = Attach::Where;
    const Where open = tucked.pocket.attach.where;
    if (open == Where::OpenTop) over.top = {};
    if (open == Where::OpenBottom) over.bottom = {};
    if (open == Where::OpenLeft) over.left = {};
    if (open == Where::OpenRight) over.right = {};
    const bool level = opens_level(tucked.pocket);
    // Too large is said by pocket_too_narrow().
    if ((level ? tucked.box.size.height > room.size.height
               : tucked.box.size.width > room.size.width) ||
        !over.any())
      return;
    report(known(tucked.piece.at_place, tucked.piece.place),
           fmt::format("{} lies {} of the room in {}: there is adhesive", the(tucked.piece, c.card),
                       past_words(over, report), the(tucked.pocket)),
           "a piece within the lines of adhesive", move_words(over, report));
  });
}

void pocket_without_grip(const Case& c, Reporter& report) {
  for_each_tucked(c, [&](const Tucked& tucked) {
    const Length least = either(c.project.printing, inches(0, 1, 4), millimetres(6));
    const bool notched = std::ranges::any_of(tucked.pocket.windows, [](const Window& window) {
      return window.notch != Window::Notch::None;
    });
    if (notched || stands_out(tucked) >= least) return;
    report(tucked.piece.place,
           fmt::format("{} cannot be pulled out of {}: nothing of it stands out",
                       the(tucked.piece, c.card), the(tucked.pocket)),
           fmt::format("{} that stand out, or a notch for the thumb", report.unrounded(least)),
           fmt::format("make it longer, or write <notch/> in {}", the(tucked.pocket)));
  });
}

} // namespace leafwright::fit
