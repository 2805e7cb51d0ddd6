#include "language/lists.h"
#include "measure/index.h"
#include "model/carrier.h"
#include "plan/fit/internal/covering.h"
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

Length lift_of(const Project& project, const Piece& piece) {
  const Adhesive* adhesive = find_at(project.adhesives, piece.attach.adhesive);
  return adhesive && piece.attach.raised ? adhesive->thickness * std::max(piece.attach.layers, 1)
                                         : Length{};
}

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
  const std::vector<Seen> order = in_order(c);
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

void thickness_unknown(const Case& c, Reporter& report) {
  if (c.card.envelope < 0 || c.closed.thickness.unknown.empty()) return;
  std::vector<std::string> names;
  for (const ItemRef& item : c.closed.thickness.unknown)
    names.push_back(item_name(c.project, item));
  report(c.card.place,
         fmt::format("how thick “{}” is cannot be told: no thickness is known for {}", c.card.title,
                     words::series(names)),
         "a thickness or a weight for every paper and foam",
         "give it a weight such as 80 lb cover or 216 g/m², or a thickness such as 0.3 mm");
}

} // namespace leafwright::fit
