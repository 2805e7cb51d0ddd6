#include "plan/fit/internal/covering.h"

#include "language/agreement.h"
#include "measure/index.h"
#include "model/carrier.h"
#include "model/form.h"
#include "model/sticking.h"
#include "model/stock_kind.h"
#include "plan/fit/internal/rules.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

namespace leafwright::fit {

std::vector<Seen> in_order(const Case& c) {
  const Card& card = c.card;
  std::vector<std::size_t> order;
  std::vector<char> listed(card.pieces.size(), 0);
  for (const Build& build : card.build) {
    const auto index = as_index(std::max(build.index, 0));
    if (build.kind != Build::Kind::Piece || index >= listed.size() || listed[index]) continue;
    listed[index] = 1;
    order.push_back(index);
  }
  for (std::size_t i = 0; i < listed.size(); ++i)
    if (!listed[i]) order.push_back(i);
  // What is tucked into a pocket lies under it, though it comes later.
  for (std::size_t i = 0; i < card.pieces.size(); ++i) {
    const int pocket = pocket_of(card, card.pieces[i]);
    if (pocket < 0) continue;
    std::erase(order, i);
    order.insert(std::ranges::find(order, as_index(pocket)), i);
  }
  std::vector<Seen> all;
  for (const std::size_t index : order) {
    const std::optional<PlacedOnFace> placed = placed_on_face(c.project, card, index);
    const Face* face = placed ? face_of(card, placed->root) : nullptr;
    const Face::Seen* seen = face ? best_seen(*face) : nullptr;
    if (seen) all.push_back({index, seen->view, {placed->box.origin + seen->at, placed->box.size}});
  }
  return all;
}

bool rests_on(const Card& card, std::size_t piece, std::size_t carrier) {
  Carrier on = card.pieces[piece].on;
  for (std::size_t steps = 0; steps < card.pieces.size(); ++steps) {
    const Piece* below = piece_of(card, on);
    if (!below) return false;
    if (as_index(on.index) == carrier) return true;
    on = below->on;
  }
  return false;
}

bool shows_through(const Piece& over, Rect over_box, Rect below) {
  return std::any_of(over.windows.begin(), over.windows.end(), [&](const Window& window) {
    return Rect{over_box.origin + window.at, window.size}.overlaps(below);
  });
}

bool opaque(const Project& project, const Piece& over) {
  const Stock* stock = find_at(project.stocks, over.stock);
  return over.shape.outline == Shape::Outline::Rectangle && over.rotation.udeg == 0 && stock &&
         !stock_row(stock->kind).seen_through;
}

namespace {

const StampImage* image_of(const Project& project, const Impression& impression) {
  const StampSet* set = find_at(project.stamp_sets, impression.set);
  return set ? find_at(set->images, impression.image) : nullptr;
}

// The box of something on a face, or on a piece, in the view that shows it.
std::optional<Seen> seen_box(const Card& card, Carrier on, Rect box) {
  const std::optional<PlacedOnFace> placed = placed_on_face(card, on, box);
  const Face* face = placed ? face_of(card, placed->root) : nullptr;
  const Face::Seen* seen = face ? best_seen(*face) : nullptr;
  if (!seen) return std::nullopt;
  return Seen{0, seen->view, {placed->box.origin + seen->at, placed->box.size}};
}

// The first piece, made later than `carrier`, that hides the whole of `box`; nullptr when none
// does.
const Piece* hides(const Case& c, const std::vector<Seen>& order, Carrier carrier,
                   const Seen& box) {
  bool later = carrier.kind == Carrier::Kind::Face;
  for (const Seen& one : order) {
    const Piece& piece = c.card.pieces[one.piece];
    if (later && piece.role != Piece::Role::Base && one.view == box.view &&
        one.box.contains(box.box) && opaque(c.project, piece) &&
        !shows_through(piece, one.box, box.box))
      return &piece;
    if (carrier == Carrier{Carrier::Kind::Piece, static_cast<int>(one.piece)}) later = true;
  }
  return nullptr;
}

void check_hidden(const Case& c, const std::vector<Seen>& order, const Impression& impression,
                  Carrier carrier, Place place, Reporter& report) {
  const StampImage* image = image_of(c.project, impression);
  if (!image) return;
  std::size_t hidden = 0;
  const Piece* over = nullptr;
  for (std::size_t i = 0; i < impression.places.size(); ++i) {
    const std::optional<Seen> box =
        seen_box(c.card, carrier, impression_box(impression, image->size, i));
    const Piece* cover = box ? hides(c, order, carrier, *box) : nullptr;
    if (!cover) continue;
    ++hidden;
    if (!over) over = cover;
  }
  if (!over) return;
  const std::size_t all = impression.places.size();
  const std::string which =
      all > 1 ? fmt::format("{} of the {} impressions of the image “{}”", hidden, all, image->name)
              : fmt::format("the image “{}”", image->name);
  report(known(impression.place, place),
         fmt::format("{} on {} of “{}” will not be seen: {} covers {}", which,
                     carrier_words(c.card, carrier), c.card.title, the(*over),
                     words::it_or_them(static_cast<std::int64_t>(hidden))),
         "stamping that shows on the finished card",
         fmt::format("move it out from under {}, or leave it out", the(*over)));
}

// A window of a piece, in the view that shows the piece.
std::optional<Seen> window_box(const Card& card, const Seen& piece, const Window& window) {
  const Piece& carrier = card.pieces[piece.piece];
  if (carrier.rotation.udeg != 0) return std::nullopt;
  return Seen{piece.piece, piece.view, {piece.box.origin + window.at, window.size}};
}

void check_pane(const Case& c, const Seen& hole, const Seen& pane, Reporter& report) {
  const Piece& over = c.card.pieces[pane.piece];
  if (pane.piece == hole.piece || pane.view != hole.view || !pane.box.overlaps(hole.box) ||
      pane.box.contains(hole.box))
    return;
  const Length rim = usual_reveal(c.project.printing);
  const Size wanted{hole.box.size.width + 2 * rim, hole.box.size.height + 2 * rim};
  report(known(over.size_place, over.place),
         fmt::format("{} does not cover the window behind which it lies: it is {}, the window {}",
                     the(over, c.card), report.unrounded(over.size),
                     report.unrounded(hole.box.size)),
         "a pane larger than its window on every side, so that it can be glued",
         fmt::format("make it at least {} and center it on the window", report.unrounded(wanted)));
}

// Whether any of its adhesive lies across an upright line on the piece, or on both sides of it.
bool stuck_across(const Case& c, const Piece& piece, Length line) {
  bool left = false, right = false;
  for (const Rect& part : stuck_parts(c.project, c.card, piece)) {
    left = left || part.left() < line;
    right = right || part.right() > line;
  }
  return left && right;
}

bool has_own_step(const Card& card, std::string_view id) {
  return !id.empty() &&
         std::ranges::any_of(card.steps, [&](const AuthorStep& step) { return step.for_id == id; });
}

} // namespace

void hidden_layer(const Case& c, Reporter& report) {
  const std::vector<Seen> order = in_order(c);
  if (order.size() > most_compared) return;
  for (std::size_t earlier = 0; earlier < order.size(); ++earlier)
    for (std::size_t later = earlier + 1; later < order.size(); ++later) {
      const Seen &top = order[later], &below = order[earlier];
      const Piece &over = c.card.pieces[top.piece], &hidden = c.card.pieces[below.piece];
      if (top.view != below.view || !top.box.contains(below.box) || !opaque(c.project, over) ||
          !over.windows.empty() ||
          over.on == Carrier{Carrier::Kind::Piece, static_cast<int>(below.piece)})
        continue;
      report(hidden.place, fmt::format("{} lies wholly under {}", the(hidden, c.card), the(over)),
             "layers that can be seen", "leave it out, or change the order or the sizes");
      break;
    }
}

void image_hidden(const Case& c, Reporter& report) {
  const std::vector<Seen> order = in_order(c);
  if (order.size() > most_compared) return;
  for (const Seen& one : order) {
    const Piece& piece = c.card.pieces[one.piece];
    if (piece.role == Piece::Role::Base) continue; // its own sides are faces
    for (const Impression& impression : piece.stamped)
      check_hidden(c, order, impression, {Carrier::Kind::Piece, static_cast<int>(one.piece)},
                   piece.place, report);
  }
  // What is stamped onto a face after the pieces there is stamped onto them: only what comes first.
  for (std::size_t i = 0; i < c.card.face_stampings.size(); ++i) {
    const FaceStamping& stamping = c.card.face_stampings[i];
    const auto at = std::ranges::find_if(c.card.build, [&](const Build& build) {
      return build.kind == Build::Kind::Stamping && as_index(std::max(build.index, 0)) == i;
    });
    std::vector<Seen> later;
    for (auto build = at; build != c.card.build.end(); ++build)
      for (const Seen& one : order)
        if (build->kind == Build::Kind::Piece && as_index(std::max(build->index, 0)) == one.piece)
          later.push_back(one);
    check_hidden(c, later, stamping.impression, stamping.on, c.card.place, report);
  }
}

void pane_too_small(const Case& c, Reporter& report) {
  const std::vector<Seen> order = in_order(c);
  if (order.size() > most_compared) return;
  std::vector<Seen> holes;
  for (const Seen& carrier : order)
    for (const Window& window : c.card.pieces[carrier.piece].windows)
      if (const auto hole = window_box(c.card, carrier, window)) holes.push_back(*hole);
  // A base lies with its inside up, and what backs its windows is glued to the inside.
  for (std::size_t i = 0; i < c.card.pieces.size(); ++i)
    if (const Piece& base = c.card.pieces[i]; base.role == Piece::Role::Base)
      for (const Window& window : base.windows)
        holes.push_back({i, View::Inside, {window.at, window.size}});
  for (const Seen& hole : holes)
    for (const Seen& pane : order) {
      const Stock* stock = find_at(c.project.stocks, c.card.pieces[pane.piece].stock);
      if (stock && stock_row(stock->kind).seen_through) check_pane(c, hole, pane, report);
    }
}

void glued_shut(const Case& c, Reporter& report) {
  const std::optional<Length> edge = opening_edge(c.card.plan);
  if (!edge) return;
  for (std::size_t i = 0; i < c.card.pieces.size(); ++i) {
    const Piece& piece = c.card.pieces[i];
    // A band is stuck to itself and slides off; a step of the author's own says where glue goes.
    if (piece.role != Piece::Role::Panel || piece.attach.adhesive < 0 ||
        piece.on.kind != Carrier::Kind::Face || has_own_step(c.card, piece.id))
      continue;
    const Face* face = face_of(c.card, piece.on);
    if (!face || face->id != "front") continue;
    for (int copy = 0; copy < copies_of(piece); ++copy) {
      const Rect box = visible_box(c.project, c.card, piece, copy);
      if (box.left() >= *edge || box.right() <= *edge) continue;
      if (is_stuck_in_part(piece.attach) && !stuck_across(c, piece, *edge - box.left())) continue;
      report(known(piece.at_place, piece.place),
             fmt::format("{} is glued across the edge where the front opens, {} from the left: the "
                         "card stays shut",
                         the(piece, c.card), report.unrounded(*edge)),
             "a layer that is stuck to one side of the opening only",
             fmt::format("write stuck=\"left-half\", or <step for=\"{}\"> that says which half to "
                         "glue, or place it on one side",
                         piece.id));
      break;
    }
  }
}

} // namespace leafwright::fit
