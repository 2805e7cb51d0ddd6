#include "measure/index.h"
#include "model/carrier.h"
#include "model/form.h"
#include "model/stock_kind.h"
#include "model/work.h"
#include "plan/fit/internal/rules.h"

#include <fmt/format.h>

#include <string>

// What a stock does not bear (model/stock_kind.h), and ink that does not dry on it.

namespace leafwright::fit {

namespace {

void say_unborne(const Case& c, Severity severity, Reporter& report) {
  for (const Piece& piece : c.card.pieces) {
    const Stock* stock = find_at(c.project.stocks, piece.stock);
    if (!stock) continue;
    Works works = works_on(piece);
    if (!scores_of(c.card, piece).empty()) works.add(Work::Score);
    for (const Unborne& row : unborne()) {
      if (row.kind != stock->kind || row.severity != severity || !works.has(row.work)) continue;
      report(piece.place,
             fmt::format("{} is {} and takes {}: {}", the(piece, c.card),
                         stock_row(stock->kind).words, work_row(row.work).words, row.why),
             "a stock that bears what is done to it", std::string(row.instead));
    }
  }
}

// Water-based ink on a surface that does not take it in.
void check_ink(const Case& c, const Stock& stock, const Impression& impression, Place place,
               const std::string& what, Reporter& report) {
  if (!stock_row(stock.kind).glossy || impression.method == Impression::Method::HeatEmbossed)
    return;
  for (const int index : impression.inks) {
    const Ink* ink = find_at(c.project.inks, index);
    if (!ink || ink->kind == Ink::Kind::Solvent || ink->kind == Ink::Kind::Unsaid) continue;
    report(known(impression.place, place),
           fmt::format("{} is {} and is stamped in {}, a {} ink: it does not dry there and wipes "
                       "off",
                       what, stock_row(stock.kind).words, ink->name,
                       ink->kind == Ink::Kind::Dye ? "dye" : "pigment"),
           "solvent ink on a glossy surface",
           "take an ink of kind=\"solvent\", or stamp paper and layer it");
  }
}

} // namespace

void stock_does_not_bear(const Case& c, Reporter& report) {
  say_unborne(c, Severity::Warning, report);
}

void stock_wants_care(const Case& c, Reporter& report) { say_unborne(c, Severity::Note, report); }

void ink_stays_wet(const Case& c, Reporter& report) {
  for (const Piece& piece : c.card.pieces)
    if (const Stock* stock = find_at(c.project.stocks, piece.stock))
      for (const Impression& one : piece.stamped)
        check_ink(c, *stock, one, piece.place, the(piece, c.card), report);
  const Piece* base = base_of(c.card);
  const Stock* stock = base ? find_at(c.project.stocks, base->stock) : nullptr;
  for (const FaceStamping& one : c.card.face_stampings)
    if (stock && face_of(c.card, one.on))
      check_ink(c, *stock, one.impression, base->place, the(*base, c.card), report);
}

} // namespace leafwright::fit
