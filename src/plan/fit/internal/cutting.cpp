#include "language/lists.h"
#include "model/carrier.h"
#include "model/form.h"
#include "plan/fit/internal/rules.h"
#include "plan/supply/sheets.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
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
      if (window.notch != Window::Notch::None) continue; // it opens at the edge
      const Length narrowest = rim(window, piece.size);
      if (narrowest < Length{} || narrowest >= least) continue;
      report(known(window.place, piece.place),
             fmt::format("{} leaves a rim of {} on {}", window_words(window),
                         report.unrounded(narrowest), the(piece, c.card)),
             fmt::format("a rim of at least {}", report.unrounded(least)),
             fmt::format("move it, or make it {} smaller", report.unrounded(least - narrowest)));
    }
}

namespace {

// What an image leaves on the paper; nothing where letters or a picture are part of it, whose
// extent is not drawn here.
std::optional<Rect> inked(const Artwork& art) {
  std::optional<Rect> all;
  for (const Art& one : art) {
    std::optional<Rect> box;
    if (const auto* path = std::get_if<PathArt>(&one.what)) {
      box = bounds(path->path);
      const Length line = path->filled ? Length{} : path->stroke / 2;
      box = Rect{{box->left() - line, box->top() - line},
                 {box->size.width + line * 2, box->size.height + line * 2}};
    } else if (const auto* shape = std::get_if<ShapeArt>(&one.what)) {
      box = shape->box;
    } else {
      return std::nullopt;
    }
    if (!all) {
      all = box;
      continue;
    }
    const Point from{std::min(all->left(), box->left()), std::min(all->top(), box->top())};
    all = Rect{from,
               {std::max(all->right(), box->right()) - from.x,
                std::max(all->bottom(), box->bottom()) - from.y}};
  }
  return all;
}

// A second image of one size that is stamped over the first, place on place, may fill a part of it.
bool registers(const Project& project, const StampSet& set, const StampImage& image) {
  const auto set_index = static_cast<int>(&set - project.stamp_sets.data());
  const auto image_index = static_cast<int>(&image - set.images.data());
  for (const Card& card : project.cards)
    for (const Piece& piece : card.pieces)
      for (const Impression& one : piece.stamped) {
        if (one.set != set_index || one.image != image_index) continue;
        const auto over = [&](const Impression& other) {
          const StampImage* below = other.set == set_index && other.image != image_index
                                        ? find_at(set.images, other.image)
                                        : nullptr;
          return below && below->size == image.size && other.places == one.places;
        };
        if (std::ranges::any_of(piece.stamped, over)) return true;
      }
  return false;
}

// An image is placed by its size: a quarter of a side that stays white puts it visibly elsewhere.
void look_at_image(const Project& project, const StampImage& image, Reporter& report) {
  const std::optional<Rect> filled = inked(image.artwork);
  if (!filled) return;
  const auto in_part = [](Length a, Length whole) { return (whole - a) * 4 > whole; };
  if (!in_part(filled->size.width, image.size.width) &&
      !in_part(filled->size.height, image.size.height))
    return;
  report(image.place,
         fmt::format("the image “{}” is said to be {}, but what is drawn is {}", image.name,
                     report.unrounded(image.size),
                     report.unrounded(up_to_step(filled->size, project.printing.step))),
         "an image that fills its size: it is placed by that",
         "say the size and the grid that it fills");
}

} // namespace

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
  for (const StampSet& set : project.stamp_sets)
    for (const StampImage& image : set.images)
      if (!registers(project, set, image)) look_at_image(project, image, report);
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

namespace {

void check_margins(const Project& project, const supply::CuttingPlan& sheets,
                   std::string_view whose, Reporter& report) {
  const Tool* trimmer = supply::trimmer_of(project);
  if (!trimmer) return;
  Length narrowest = trimmer->smallest_strip;
  std::vector<std::string> names;
  for (const supply::StockSheets& stock : sheets.stocks) {
    Length least = trimmer->smallest_strip;
    for (const supply::SheetLayout& layout : stock.layouts)
      for (const supply::SheetLayout::Move& move : layout.moves)
        least = std::min(least, rest_of(move));
    if (least >= trimmer->smallest_strip) continue;
    narrowest = std::min(narrowest, least);
    names.push_back(stock_name(project, stock.stock));
  }
  if (names.empty()) return;
  report(trimmer->place,
         fmt::format("{}, some cuts leave only {} under the blade (sheets of {})", whose,
                     report.unrounded(narrowest), words::series(names)),
         fmt::format("at least {}, the smallest strip that the trimmer holds",
                     report.unrounded(trimmer->smallest_strip)),
         "hold the larger part under the clamp when you make those cuts");
}

} // namespace

void margin_too_narrow(const Project& project, const supply::CuttingPlan* sheets,
                       Reporter& report) {
  if (sheets) check_margins(project, *sheets, "of the sheets for one kit", report);
}

void batch_margin_too_narrow(const Project& project, const supply::CuttingPlan& sheets,
                             Reporter& report) {
  check_margins(project, sheets, "of the sheets for the whole batch", report);
}

} // namespace leafwright::fit
