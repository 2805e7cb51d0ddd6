#include "model/carrier.h"
#include "model/form.h"
#include "plan/fit/internal/rules.h"
#include "plan/supply/sheets.h"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

namespace leafwright::fit {

namespace {

// The scores of a card with two gates from left to right, when it has two across.
struct Gates {
  Length left{}, middle{}, right{};
};

bool gates_of(const Card& card, Gates& gates) {
  const Piece* base = base_of(card);
  if (card.plan.front_leaves.size() != 2 || !base) return false;
  std::vector<Length> at;
  for (const Score& score : scores_of(card, *base))
    if (score.vertical) at.push_back(score.at);
  std::sort(at.begin(), at.end());
  if (at.size() != 2) return false;
  gates = {at[0], at[1] - at[0], base->size.width - at[1]};
  return true;
}

const char* from_edge(const Score& score) { return score.vertical ? "left" : "top"; }

bool same_score(const Score& a, const Score& b) {
  return a.vertical == b.vertical && absolute(a.at - b.at) <= same_line;
}

bool one_direction(const std::vector<Score>& scores) {
  return std::all_of(scores.begin(), scores.end(),
                     [&](const Score& score) { return score.vertical == scores.front().vertical; });
}

} // namespace

void base_size(const Case& c, Reporter& report) {
  const Piece* base = base_of(c.card);
  if (!base) {
    report(c.card.place, fmt::format("“{}” has no base", c.card.title),
           "a base, the first of its pieces",
           fmt::format("add a base of {}", report.unrounded(c.card.plan.unfolded)));
    return;
  }
  const Size wanted = c.card.plan.unfolded;
  if (absolute(base->size.width - wanted.width) <= same_size &&
      absolute(base->size.height - wanted.height) <= same_size)
    return;
  report(known(base->size_place, base->place),
         fmt::format("{} is {}", the(*base, c.card), report.unrounded(base->size)),
         fmt::format("{}, which folds to {} ({})", report.unrounded(wanted),
                     report.unrounded(c.card.finished), form_words(c.card.form)),
         base->size == wanted.turned() ? "width and height have changed places: turn them round"
                                       : fmt::format("cut it {}", report.unrounded(wanted)));
}

void score_at_fold(const Case& c, Reporter& report) {
  const Piece* base = base_of(c.card);
  if (!base || base->scores.empty()) return; // not said: the plan's own scores hold
  for (const Score& fold : c.card.plan.scores) {
    const bool scored = std::any_of(base->scores.begin(), base->scores.end(),
                                    [&](const Score& own) { return same_score(own, fold); });
    if (scored) continue;
    report(base->place,
           fmt::format("{} has no score {} from its {} edge, where it folds", the(*base, c.card),
                       report.unrounded(fold.at), from_edge(fold)),
           fmt::format("a score at every fold ({})", form_words(c.card.form)),
           fmt::format("score it {} from the {} edge", report.unrounded(fold.at), from_edge(fold)));
  }
  for (const Score& own : base->scores) {
    const bool folds = std::any_of(c.card.plan.scores.begin(), c.card.plan.scores.end(),
                                   [&](const Score& fold) { return same_score(own, fold); });
    if (folds || c.card.form.kind == Form::Kind::Custom) continue;
    report(base->place,
           fmt::format("{} has a score {} from its {} edge, where nothing folds",
                       the(*base, c.card), report.unrounded(own.at), from_edge(own)),
           fmt::format("scores only where the card folds ({})", form_words(c.card.form)),
           "leave that score out, or choose a form of its own");
  }
}

void gates_overlap(const Case& c, Reporter& report) {
  Gates gates;
  if (!gates_of(c.card, gates)) return;
  const Length over = gates.left + gates.right - gates.middle;
  if (over <= same_size) return;
  report(base_of(c.card)->place,
         fmt::format("the gates of “{}” are {} and {} wide and overlap by {} on a middle of {}",
                     c.card.title, report.unrounded(gates.left), report.unrounded(gates.right),
                     report.unrounded(over), report.unrounded(gates.middle)),
         "two gates that meet without overlapping",
         fmt::format("score {} from each end",
                     report.unrounded((gates.left + gates.middle + gates.right) / 4)));
}

void gates_gap(const Case& c, Reporter& report) {
  Gates gates;
  if (!gates_of(c.card, gates)) return;
  const Length gap = gates.middle - gates.left - gates.right;
  if (gap <= slip(c.project.printing)) return;
  report(base_of(c.card)->place,
         fmt::format("the gates of “{}” leave a gap of {} between them", c.card.title,
                     report.unrounded(gap)),
         "gates that meet, or a gap that is wanted",
         fmt::format("to close it, score {} from each end",
                     report.unrounded((gates.left + gates.middle + gates.right) / 4)));
}

void grain_across_fold(const Case& c, Reporter& report) {
  for (const Piece& piece : c.card.pieces) {
    const Stock* stock = find_at(c.project.stocks, piece.stock);
    if (!stock || stock->grain == Stock::Grain::Unknown || piece.scores.empty() ||
        !one_direction(piece.scores))
      continue;
    const bool along_height = stock->grain == Stock::Grain::AlongHeight;
    const supply::SheetOrientation along = piece.scores.front().vertical == along_height
                                               ? supply::SheetOrientation::Upright
                                               : supply::SheetOrientation::Turned;
    if (supply::sheet_orientation(*stock, piece) == along) continue;
    report(known(piece.size_place, piece.place),
           fmt::format("{} folds across the grain of {}{}", the(piece, c.card), stock->name,
                       stock->upright ? ", because its pattern must stand upright"
                                      : ": it fits on no sheet the other way"),
           "a fold along the grain; across it the surface cracks",
           fmt::format("choose a sheet with its grain along the {}, or score deeply and burnish",
                       along_height ? "width" : "height"));
  }
}

} // namespace leafwright::fit
