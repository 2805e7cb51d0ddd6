#include "measure/index.h"
#include "plan/fit/internal/placed_on_face.h"
#include "plan/fit/internal/rules.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <vector>

namespace leafwright::fit {

namespace {

// The width that must find room under a piece; 0 where it does not matter.
Length width_of(const Adhesive& adhesive) {
  switch (adhesive.measured) {
  case Adhesive::Measured::ByCount: return std::min(adhesive.piece.width, adhesive.piece.height);
  case Adhesive::Measured::ByLength: return adhesive.piece.width;
  case Adhesive::Measured::ByMass: break;
  }
  return {};
}

// The narrowest place that adhesive can be put on all along: a side, or the rim of a square window.
Length narrowest(const Piece& piece) {
  Length side = std::min(piece.size.width, piece.size.height);
  for (const Window& window : piece.windows) {
    if (window.shape.outline != Shape::Outline::Rectangle) continue;
    const Past over = past({window.at, window.size}, {{}, piece.size});
    if (over.any()) continue; // said elsewhere
    side = std::min({side, window.at.x, window.at.y,
                     piece.size.width - window.at.x - window.size.width,
                     piece.size.height - window.at.y - window.size.height});
  }
  return side;
}

// A piece in the order of making, where the view shows it.
struct Seen {
  std::size_t piece = 0;
  View view = View::Front;
  Rect box;
};

std::vector<Seen> in_order(const Card& card) {
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
  std::vector<Seen> all;
  for (const std::size_t index : order) {
    const std::optional<PlacedOnFace> placed = lying_of(card, index);
    const Face* face = placed ? face_of(card, placed->root) : nullptr;
    const Face::Seen* seen = face ? seen_of(*face) : nullptr;
    if (seen) all.push_back({index, seen->view, {placed->box.origin + seen->at, placed->box.size}});
  }
  return all;
}

// Whether `piece` lies, directly or not, on `carrier`.
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

Length lift_of(const Project& project, const Piece& piece) {
  const Adhesive* adhesive = find_at(project.adhesives, piece.attach.adhesive);
  return adhesive && piece.attach.raised ? adhesive->thickness * std::max(piece.attach.layers, 1)
                                         : Length{};
}

// Openings of a flat, unturned piece in the coordinates of the view.
bool shows_through(const Piece& over, Rect over_box, Rect below) {
  return std::any_of(over.windows.begin(), over.windows.end(), [&](const Window& window) {
    return Rect{over_box.origin + window.at, window.size}.overlaps(below);
  });
}

// Whether `over` hides all that lies under its box.
bool opaque(const Project& project, const Piece& over) {
  const Stock* stock = find_at(project.stocks, over.stock);
  return over.shape.outline == Shape::Outline::Rectangle && over.rotation.udeg == 0 && stock &&
         stock->kind != Stock::Kind::Vellum && stock->kind != Stock::Kind::Clear;
}

// Comparing every piece with every other is for cards, not for hostile files.
constexpr std::size_t most_compared = 400;

} // namespace

void adhesive_wider_than_piece(const Case& c, Reporter& report) {
  for (const Piece& piece : c.card.pieces) {
    const Adhesive* adhesive = find_at(c.project.adhesives, piece.attach.adhesive);
    if (!adhesive) continue;
    const Length width = width_of(*adhesive), room = narrowest(piece);
    if (width <= room) continue;
    report(known(piece.size_place, piece.place),
           fmt::format("{} is {} at its narrowest and {} is {} wide", the(piece, c.card),
                       report.unrounded(room), adhesive->name, report.unrounded(width)),
           "an adhesive that does not show at the edge",
           fmt::format("use one no wider than {}, cut it to that, or make the piece {} wide",
                       report.unrounded(room), report.unrounded(width)));
  }
}

void hollow_beneath(const Case& c, Reporter& report) {
  const std::vector<Seen> order = in_order(c.card);
  if (order.size() > most_compared) return;
  for (std::size_t later = 0; later < order.size(); ++later)
    for (std::size_t earlier = 0; earlier < later; ++earlier) {
      const Seen &top = order[later], &below = order[earlier];
      const Piece &over = c.card.pieces[top.piece], &raised = c.card.pieces[below.piece];
      const Length lift = lift_of(c.project, raised);
      if (lift == Length{} || top.view != below.view || !top.box.overlaps(below.box)) continue;
      // Wholly on it, standing as high itself, or over it with a window: nothing hangs in the air.
      if (rests_on(c.card, top.piece, below.piece) || below.box.contains(top.box) ||
          lift_of(c.project, over) >= lift || shows_through(over, top.box, below.box))
        continue;
      Finding& finding =
          report(known(over.at_place, over.place),
                 fmt::format("{} lies partly on {}, which stands {} high on foam, and partly on "
                             "nothing",
                             the(over, c.card), the(raised), report.unrounded(lift)),
                 "a raised layer as wide as what lies on it",
                 fmt::format("raise {} by {} too, or lay it wholly on {}", the(over),
                             report.unrounded(lift), the(raised)));
      finding.trace.push_back({raised.place, fmt::format("{} is raised here", the(raised))});
    }
}

void hidden_layer(const Case& c, Reporter& report) {
  const std::vector<Seen> order = in_order(c.card);
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

void thickness_unknown(const Case& c, Reporter& report) {
  if (c.card.envelope < 0 || c.closed.thickness.unknown.empty()) return;
  std::string names;
  for (const ItemRef& item : c.closed.thickness.unknown)
    names += (names.empty() ? "" : ", ") + item_name(c.project, item);
  report(c.card.place,
         fmt::format("how thick “{}” is cannot be told: no thickness is known for {}", c.card.title,
                     names),
         "a thickness or a weight for every paper and foam",
         "give it a weight such as 80 lb cover or 216 g/m², or a thickness such as 0.3 mm");
}

} // namespace leafwright::fit
