#include "model/carrier.h"
#include "model/form.h"
#include "plan/fit/internal/rules.h"
#include "plan/supply/sheets.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <vector>

namespace leafwright::fit {

namespace {

std::string window_words(const Window& window) {
  return window.id.empty() ? "the window" : "the window “" + window.id + "”";
}

// The narrowest rim between a window and the edges of its piece.
Length rim(const Window& window, Size piece) {
  return std::min({window.at.x, window.at.y, piece.width - window.at.x - window.size.width,
                   piece.height - window.at.y - window.size.height});
}

Length length_of(const supply::SheetLayout::Move& move) {
  return move.across ? move.from.size.width : move.from.size.height;
}

Length rest_of(const supply::SheetLayout::Move& move) {
  return (move.across ? move.from.size.height : move.from.size.width) - move.at;
}

std::string stock_name(const Project& project, int stock) {
  return item_name(project, {ItemKind::Stock, stock});
}

} // namespace

void die_larger_than_piece(const Case& c, Reporter& report) {
  for (const Piece& piece : c.card.pieces) {
    const Die* die = find_at(c.project.dies, piece.die);
    if (!die || piece.cut != Piece::CutBy::Die) continue;
    const Size from = supply::rectangle_of(piece);
    const Stock* stock = find_at(c.project.stocks, piece.stock);
    const bool may_turn = !stock || !stock->upright;
    if (fits(die->size, from) || (may_turn && fits(die->size.turned(), from))) continue;
    report(known(piece.size_place, piece.place),
           fmt::format("{} is cut with {}, {}, from a piece of {}", the(piece, c.card), die->name,
                       report.unrounded(die->size), report.unrounded(from)),
           "a piece at least as large as the die",
           fmt::format("cut {} first", report.unrounded(die->size)));
  }
}

void die_of_other_size(const Case& c, Reporter& report) {
  for (const Piece& piece : c.card.pieces) {
    const Die* die = find_at(c.project.dies, piece.die);
    if (!die || piece.cut != Piece::CutBy::Die || piece.size == die->size) continue;
    report(known(piece.size_place, piece.place),
           fmt::format("{} is said to be {}, but {} cuts {}", the(piece, c.card),
                       report.unrounded(piece.size), die->name, report.unrounded(die->size)),
           "the size that its die cuts", fmt::format("make it {}", report.unrounded(die->size)));
  }
}

void window_past_edge(const Case& c, Reporter& report) {
  for (const Piece& piece : c.card.pieces)
    for (const Window& window : piece.windows) {
      const Past over = past({window.at, window.size}, {{}, piece.size});
      if (!over.any()) continue;
      Finding& finding = report(
          known(window.place, piece.place),
          fmt::format("{}, {}, reaches {} of {}", window_words(window),
                      report.unrounded(window.size), past_words(over, report), the(piece, c.card)),
          "a window inside the piece it is cut from",
          fits(window.size, piece.size)
              ? move_words(over, report)
              : fmt::format("make it no larger than {}",
                            report.unrounded(
                                Size{piece.size.width - 2 * usual_reveal(c.project.printing),
                                     piece.size.height - 2 * usual_reveal(c.project.printing)})));
      finding.trace.push_back({known(piece.size_place, piece.place),
                               fmt::format("{} is {}", the(piece), report.unrounded(piece.size))});
    }
}

void window_rim_thin(const Case& c, Reporter& report) {
  const Length least = usual_reveal(c.project.printing);
  for (const Piece& piece : c.card.pieces)
    for (const Window& window : piece.windows) {
      const Length narrowest = rim(window, piece.size);
      if (narrowest < Length{} || narrowest >= least) continue;
      report(known(window.place, piece.place),
             fmt::format("{} leaves a rim of {} on {}", window_words(window),
                         report.unrounded(narrowest), the(piece, c.card)),
             fmt::format("a rim of at least {}", report.unrounded(least)),
             fmt::format("move it, or make it {} smaller", report.unrounded(least - narrowest)));
    }
}

void outline_in_part(const Project& project, const supply::CuttingPlan*, Reporter& report) {
  // A thirty-second of a side is less than the wall of a die; more is another size.
  const auto differs = [](Length a, Length b) { return absolute(a - b) * 32 > b; };
  const auto look = [&](std::string_view name, const Shape& shape, Size size, Place place) {
    if (shape.outline != Shape::Outline::Free || shape.path.empty()) return;
    const Size filled = bounds(outline_path(shape, size)).size;
    if (!differs(filled.width, size.width) && !differs(filled.height, size.height)) return;
    report(place,
           fmt::format("{} is said to be {}, but what is drawn is {}", name, report.unrounded(size),
                       report.unrounded(up_to_step(filled, project.printing.step))),
           "an outline that fills its size: pieces and rims are worked out from that",
           "draw it up to the edges of its grid, or say the size and the grid that it fills");
  };
  for (const Die& die : project.dies) look(die.name, die.shape, die.size, die.place);
  for (const Embellishment& one : project.embellishments)
    look(one.name, one.shape, one.size, one.place);
  for (const Card& card : project.cards)
    for (const Piece& piece : card.pieces) {
      if (piece.die < 0) look(the(piece, card), piece.shape, piece.size, piece.place);
      for (const Window& window : piece.windows)
        if (window.die < 0)
          look(window_words(window), window.shape, window.size, known(window.place, piece.place));
    }
}

void strip_too_narrow(const Case& c, Reporter& report) {
  const Tool* trimmer = supply::trimmer_of(c.project);
  if (!trimmer) return;
  for (const Piece& piece : c.card.pieces) {
    const Size cut = supply::rectangle_of(piece);
    const Length side = std::min(cut.width, cut.height);
    if (piece.stock < 0 || side >= trimmer->smallest_strip) continue;
    report(known(piece.size_place, piece.place),
           fmt::format("{} is cut {} wide", the(piece, c.card), report.unrounded(side)),
           fmt::format("at least {}, the smallest strip that the trimmer holds",
                       report.unrounded(trimmer->smallest_strip)),
           fmt::format("make it {} wide, or cut it with scissors from a strip of {}",
                       report.unrounded(trimmer->smallest_strip),
                       report.unrounded(trimmer->smallest_strip)));
  }
}

void cut_too_long(const Project& project, const supply::CuttingPlan* sheets, Reporter& report) {
  const Tool* trimmer = supply::trimmer_of(project);
  if (!trimmer || !sheets) return;
  for (const supply::StockSheets& stock : sheets->stocks) {
    Length longest{};
    for (const supply::SheetLayout& layout : stock.layouts)
      for (const supply::SheetLayout::Move& move : layout.moves)
        longest = std::max(longest, length_of(move));
    if (longest <= trimmer->cut_length) continue;
    report(trimmer->place,
           fmt::format("a sheet of {} is cut over {}", stock_name(project, stock.stock),
                       report.unrounded(longest)),
           fmt::format("at most {}, as long as {} cuts", report.unrounded(trimmer->cut_length),
                       trimmer->name),
           fmt::format("halve the sheet with a knife and a ruler first, or use a trimmer of {}",
                       report.unrounded(longest)));
  }
}

void margin_too_narrow(const Project& project, const supply::CuttingPlan* sheets,
                       Reporter& report) {
  const Tool* trimmer = supply::trimmer_of(project);
  if (!trimmer || !sheets) return;
  Length narrowest = trimmer->smallest_strip;
  std::string names;
  for (const supply::StockSheets& stock : sheets->stocks) {
    Length least = trimmer->smallest_strip;
    for (const supply::SheetLayout& layout : stock.layouts)
      for (const supply::SheetLayout::Move& move : layout.moves)
        least = std::min(least, rest_of(move));
    if (least >= trimmer->smallest_strip) continue;
    narrowest = std::min(narrowest, least);
    names += (names.empty() ? "" : ", ") + stock_name(project, stock.stock);
  }
  if (names.empty()) return;
  report(trimmer->place,
         fmt::format("some cuts leave only {} under the blade (sheets of {})",
                     report.unrounded(narrowest), names),
         fmt::format("at least {}, the smallest strip that the trimmer holds",
                     report.unrounded(trimmer->smallest_strip)),
         "hold the larger part under the clamp when you make those cuts");
}

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
