#include "measure/index.h"
#include "model/stock_kind.h"
#include "model/technique.h"
#include "plan/fit/internal/rules.h"

#include <fmt/format.h>

#include <algorithm>

// What techniques ask of paper, tools and the order of the work.

namespace leafwright::fit {

namespace {

template <class Do>
void for_each_finish(const Case& c, Do act) {
  for (const Piece& piece : c.card.pieces)
    for (const Finish& finish : piece.finishes) act(piece, finish);
}

// Solvent ink and what is under melted powder do not run.
bool runs(const Project& project, const Impression& impression) {
  if (impression.method == Impression::Method::HeatEmbossed) return false;
  return std::ranges::any_of(impression.inks, [&](int index) {
    const Ink* ink = find_at(project.inks, index);
    return ink && ink->kind != Ink::Kind::Solvent;
  });
}

} // namespace

void washed_over_stamping(const Case& c, Reporter& report) {
  for_each_finish(c, [&](const Piece& piece, const Finish& finish) {
    if (!technique_row(finish.kind).wets) return;
    const std::size_t before = std::min(finish.images, piece.stamped.size());
    for (std::size_t i = 0; i < before; ++i) {
      if (!runs(c.project, piece.stamped[i])) continue;
      report(known(finish.place, piece.place),
             fmt::format("{} is washed after it is stamped: the ink runs", the(piece, c.card)),
             "a wash that is dry before anything is stamped on it",
             "write <wash> before <stamp>, or stamp in an ink of kind=\"solvent\"");
      return;
    }
  });
}

void wet_paper_buckles(const Case& c, Reporter& report) {
  for_each_finish(c, [&](const Piece& piece, const Finish& finish) {
    const Stock* stock = find_at(c.project.stocks, piece.stock);
    if (!technique_row(finish.kind).wets || !stock || stock_row(stock->kind).takes_water ||
        stock->kind == Stock::Kind::Vellum) // said of the stock
      return;
    report(known(finish.place, piece.place),
           fmt::format("{} is {} and buckles when it is wet", the(piece, c.card),
                       stock_row(stock->kind).words),
           "a stock of kind=\"watercolour\" under a wash",
           "take watercolor paper, or tape it down all round until it is dry");
  });
}

void embossed_before_heat(const Case& c, Reporter& report) {
  for_each_finish(c, [&](const Piece& piece, const Finish& finish) {
    if (finish.kind != Finish::Kind::Embossed) return;
    for (std::size_t i = finish.images; i < piece.stamped.size(); ++i) {
      if (piece.stamped[i].method != Impression::Method::HeatEmbossed) continue;
      report(known(finish.place, piece.place),
             fmt::format("{} is dry embossed before it is heat embossed: powder settles in the "
                         "pattern, and heat flattens it",
                         the(piece, c.card)),
             "heat embossing first, dry embossing last",
             "write <emboss> after <stamp>; the steps tell it last in any case");
      return;
    }
  });
}

void folder_too_small(const Case& c, Reporter& report) {
  for_each_finish(c, [&](const Piece& piece, const Finish& finish) {
    const Tool* tool = find_at(c.project.tools, finish.tool);
    if (!tool || tool->size == Size{}) return;
    const auto holds = [&](Size size) {
      return piece.size.width <= size.width && piece.size.height <= size.height;
    };
    if (holds(tool->size) || holds(tool->size.turned())) return;
    report(known(finish.place, piece.place),
           fmt::format("{} is {}, and {} covers {}", the(piece, c.card),
                       report.unrounded(piece.size), tool->name, report.unrounded(tool->size)),
           "a folder or stencil as large as its piece",
           "take a larger one, or do a smaller piece and layer it");
  });
}

} // namespace leafwright::fit
