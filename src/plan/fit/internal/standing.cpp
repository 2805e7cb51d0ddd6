#include "measure/index.h"
#include "model/carrier.h"
#include "model/pop_up.h"
#include "model/sticking.h"
#include "plan/fit/internal/rules.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

// Cards that stand: the easel and its stopper, and boxes that stand up as a card opens.

namespace leafwright::fit {

namespace {

// From the fold at the back of an easel: its leg, the lower half of its panel, and where that is
// stopped. Together they are a triangle.
struct Easel {
  const Piece* panel = nullptr;
  Length leg{}, panel_below{};
  std::optional<Length> stop;
};

Easel easel_of(const Case& c) {
  Easel easel;
  const Face* flap = nullptr;
  for (const Face& face : c.card.plan.faces)
    if (face.id == "flap") flap = &face;
  if (!flap) return easel;
  easel.leg = c.card.finished.height - flap->size.height;
  for (std::size_t i = 0; i < c.card.pieces.size(); ++i) {
    const Piece& piece = c.card.pieces[i];
    const auto placed = placed_on_face(c.project, c.card, i);
    const Face* face = placed ? face_of(c.card, placed->root) : nullptr;
    if (!face || piece.role == Piece::Role::Base) continue;
    if (face->id == "flap" && face_of(c.card, piece.on) &&
        placed->box.bottom() - flap->size.height > easel.panel_below) {
      easel.panel = &piece;
      easel.panel_below = placed->box.bottom() - flap->size.height;
    }
    if (face->id == "inside" && piece.attach.raised &&
        (!easel.stop || placed->box.top() > *easel.stop))
      easel.stop = placed->box.top();
  }
  for (const EmbellishmentUse& use : c.card.embellishments)
    for (const Point& at : use.places) {
      const auto placed = placed_on_face(c.card, use.on, {at, {}});
      const Face* face = placed ? face_of(c.card, placed->root) : nullptr;
      if (face && face->id == "inside" && (!easel.stop || placed->box.top() > *easel.stop))
        easel.stop = placed->box.top();
    }
  return easel;
}

// Where the stop makes the panel lean at about 70 degrees: by the law of cosines.
Length stop_for_70_degrees(const Easel& easel) {
  const auto leg = static_cast<double>(easel.leg.nm),
             below = static_cast<double>(easel.panel_below.nm);
  const double cosine = std::cos(70.0 / 180.0 * 3.14159265358979323846);
  const double under = leg * leg - below * below * (1 - cosine * cosine);
  if (under < 0) return easel.panel_below;
  return {static_cast<std::int64_t>(below * cosine + std::sqrt(under))};
}

} // namespace

void easel_without_panel(const Case& c, Reporter& report) {
  if (c.card.form.kind != Form::Kind::Easel) return;
  const Easel easel = easel_of(c);
  if (!easel.panel) {
    report(c.card.place, fmt::format("“{}” has no panel on its flap to stand up", c.card.title),
           "a panel on=\"flap\" that reaches below it, as large as the card",
           "write <panel on=\"flap\" stuck=\"top-half\" …>");
    return;
  }
  const auto parts = stuck_parts(c.project, c.card, *easel.panel);
  const Length flap = c.card.finished.height - easel.leg;
  const bool shut = std::ranges::any_of(parts, [&](const Rect& part) {
    return easel.panel->at.y + part.bottom() > flap + same_line;
  });
  const bool own = std::ranges::any_of(
      c.card.steps, [&](const AuthorStep& step) { return step.for_id == easel.panel->id; });
  if (shut && !own)
    report(
        known(easel.panel->attach.where_place, easel.panel->place),
        fmt::format("{} is glued below the flap: the card stays shut", the(*easel.panel, c.card)),
        "a panel that is stuck to the flap alone", "write stuck=\"top-half\"");
}

void easel_without_stopper(const Case& c, Reporter& report) {
  if (c.card.form.kind != Form::Kind::Easel) return;
  const Easel easel = easel_of(c);
  if (!easel.panel) return; // said above
  const Length good = down_to_step(stop_for_70_degrees(easel),
                                   either(c.project.printing, inches(0, 1, 8), millimetres(1)));
  const std::string fix = fmt::format(
      "raise a piece on the inside, its upper edge {} below the fold", report.unrounded(good));
  if (!easel.stop)
    report(c.card.place,
           fmt::format("nothing stops the panel of “{}”: it slides flat", c.card.title),
           "something raised on the inside, against which the panel stands", fix);
  else if (*easel.stop >= easel.leg + easel.panel_below)
    report(c.card.place,
           fmt::format("the stopper of “{}” is {} from the fold, and leg and panel together reach "
                       "{}: the card lies flat",
                       c.card.title, report.unrounded(*easel.stop),
                       report.unrounded(easel.leg + easel.panel_below)),
           "a stopper nearer to the fold", fix);
}

void pop_up_past_edge(const Case& c, Reporter& report) {
  const std::optional<Length> fold = pop_up_fold(c.card);
  if (!fold) return;
  const Length leaf = std::min(*fold, c.card.plan.unfolded.height - *fold);
  for (const PopUp& pop_up : c.card.pop_ups) {
    const Length box = reach_when_closed(pop_up, pop_up.height);
    if (box > leaf)
      report(pop_up.place,
             fmt::format("the pop-up of “{}” reaches {} from the fold when the card is closed, {} "
                         "past its edge",
                         c.card.title, report.unrounded(box), report.unrounded(box - leaf)),
             "height and depth that together are no more than a leaf",
             fmt::format("make them {} together or less", report.unrounded(leaf)));
    const Length right = c.card.plan.unfolded.width - pop_up.left - pop_up.width;
    const Length rim = usual_reveal(c.project.printing);
    if (pop_up.left < rim || right < rim)
      report(pop_up.place,
             fmt::format("the pop-up of “{}” is {} from the edge of the card: the fold tears there",
                         c.card.title, report.unrounded(std::min(pop_up.left, right))),
             fmt::format("{} or more beside its slits", report.unrounded(rim)),
             "make it narrower, or move it");
  }
}

void layer_past_pop_up(const Case& c, Reporter& report) {
  const std::optional<Length> fold = pop_up_fold(c.card);
  if (!fold) return;
  const Length leaf = c.card.plan.unfolded.height - *fold;
  for (const PopUp& pop_up : c.card.pop_ups)
    for (std::size_t i = 0; i < c.card.pieces.size(); ++i) {
      const auto placed = placed_on_face(c.project, c.card, i);
      if (!placed || placed->root != Carrier{Carrier::Kind::Face, pop_up.face}) continue;
      const Piece& piece = c.card.pieces[i];
      const Length reach = reach_when_closed(pop_up, pop_up.height - placed->box.top());
      if (reach > leaf)
        report(known(piece.size_place, piece.place),
               fmt::format("{} stands {} past the edge when the card is closed", the(piece, c.card),
                           report.unrounded(reach - leaf)),
               "a layer on a pop-up that closes inside the card",
               fmt::format("make it {} lower, or the pop-up less deep",
                           report.unrounded(reach - leaf)));
      if (placed->box.bottom() > pop_up.height)
        report(known(piece.at_place, piece.place),
               fmt::format("{} reaches {} below the foot of the pop-up: the card does not open",
                           the(piece, c.card),
                           report.unrounded(placed->box.bottom() - pop_up.height)),
               "a layer that ends at the foot of its pop-up, or above it",
               "move it up, or make it lower");
    }
}

} // namespace leafwright::fit
