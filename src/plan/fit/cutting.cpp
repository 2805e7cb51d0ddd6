#include "plan/fit/rules.h"

#include "plan/fit/limits.h"
#include "plan/supply/lie.h"
#include "plan/supply/trimmer.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>

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

void die_larger_than_piece(const Case& c, Speaker& say) {
  for (const Piece& piece : c.card.pieces) {
    const Die* die = find_at(c.project.dies, piece.die);
    if (!die || piece.cut != Piece::CutBy::Die) continue;
    const Size from = supply::rectangle_of(piece);
    const Stock* stock = find_at(c.project.stocks, piece.stock);
    const bool may_turn = !stock || !stock->upright;
    if (fits(die->size, from) || (may_turn && fits(die->size.turned(), from))) continue;
    say(known(piece.size_place, piece.place),
        fmt::format("{} is cut with {}, {}, from a piece of {}", the(piece, c.card), die->name,
                    say.said(die->size), say.said(from)),
        "a piece at least as large as the die", fmt::format("cut {} first", say.said(die->size)));
  }
}

void die_of_other_size(const Case& c, Speaker& say) {
  for (const Piece& piece : c.card.pieces) {
    const Die* die = find_at(c.project.dies, piece.die);
    if (!die || piece.cut != Piece::CutBy::Die || piece.size == die->size) continue;
    say(known(piece.size_place, piece.place),
        fmt::format("{} is said to be {}, but {} cuts {}", the(piece, c.card), say.said(piece.size),
                    die->name, say.said(die->size)),
        "the size that its die cuts", fmt::format("make it {}", say.said(die->size)));
  }
}

void window_past_edge(const Case& c, Speaker& say) {
  for (const Piece& piece : c.card.pieces)
    for (const Window& window : piece.windows) {
      const Past over = past({window.at, window.size}, {{}, piece.size});
      if (!over.any()) continue;
      Finding& finding =
          say(known(window.place, piece.place),
              fmt::format("{}, {}, reaches {} of {}", window_words(window), say.said(window.size),
                          past_words(over, say), the(piece, c.card)),
              "a window inside the piece it is cut from",
              fits(window.size, piece.size)
                  ? move_words(over, say)
                  : fmt::format(
                        "make it no larger than {}",
                        say.said(Size{piece.size.width - 2 * usual_reveal(c.project.printing),
                                      piece.size.height - 2 * usual_reveal(c.project.printing)})));
      finding.trace.push_back({known(piece.size_place, piece.place),
                               fmt::format("{} is {}", the(piece), say.said(piece.size))});
    }
}

void window_rim_thin(const Case& c, Speaker& say) {
  const Length least = usual_reveal(c.project.printing);
  for (const Piece& piece : c.card.pieces)
    for (const Window& window : piece.windows) {
      const Length narrowest = rim(window, piece.size);
      if (narrowest < Length{} || narrowest >= least) continue;
      say(known(window.place, piece.place),
          fmt::format("{} leaves a rim of {} on {}", window_words(window), say.said(narrowest),
                      the(piece, c.card)),
          fmt::format("a rim of at least {}", say.said(least)),
          fmt::format("move it, or make it {} smaller", say.said(least - narrowest)));
    }
}

void strip_too_narrow(const Case& c, Speaker& say) {
  const Tool* trimmer = supply::trimmer_of(c.project);
  if (!trimmer) return;
  for (const Piece& piece : c.card.pieces) {
    const Size cut = supply::rectangle_of(piece);
    const Length side = std::min(cut.width, cut.height);
    if (piece.stock < 0 || side >= trimmer->smallest_strip) continue;
    say(known(piece.size_place, piece.place),
        fmt::format("{} is cut {} wide", the(piece, c.card), say.said(side)),
        fmt::format("at least {}, the smallest strip that the trimmer holds",
                    say.said(trimmer->smallest_strip)),
        fmt::format("make it {} wide, or cut it with scissors from a strip of {}",
                    say.said(trimmer->smallest_strip), say.said(trimmer->smallest_strip)));
  }
}

void cut_too_long(const Project& project, const supply::KitSheets* sheets, Speaker& say) {
  const Tool* trimmer = supply::trimmer_of(project);
  if (!trimmer || !sheets) return;
  for (const supply::StockSheets& stock : sheets->stocks) {
    Length longest{};
    for (const supply::SheetLayout& layout : stock.layouts)
      for (const supply::SheetLayout::Move& move : layout.moves)
        longest = std::max(longest, length_of(move));
    if (longest <= trimmer->cut_length) continue;
    say(trimmer->place,
        fmt::format("a sheet of {} is cut over {}", stock_name(project, stock.stock),
                    say.said(longest)),
        fmt::format("at most {}, as long as {} cuts", say.said(trimmer->cut_length), trimmer->name),
        fmt::format("halve the sheet with a knife and a ruler first, or use a trimmer of {}",
                    say.said(longest)));
  }
}

void margin_too_narrow(const Project& project, const supply::KitSheets* sheets, Speaker& say) {
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
  say(trimmer->place,
      fmt::format("some cuts leave only {} under the blade (sheets of {})", say.said(narrowest),
                  names),
      fmt::format("at least {}, the smallest strip that the trimmer holds",
                  say.said(trimmer->smallest_strip)),
      "hold the larger part under the clamp when you make those cuts");
}

} // namespace leafwright::fit
