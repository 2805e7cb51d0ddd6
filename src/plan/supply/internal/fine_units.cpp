#include "plan/supply/internal/fine_units.h"

#include <array>
#include <numeric>
#include <optional>

namespace leafwright::supply {

namespace {

constexpr std::int64_t most_parts = 48;    // of a sheet's side
constexpr std::int64_t finest = 48 * 5040; // of a nanometre

// This many parts of so many of a sheet's side.
struct Share {
  std::int64_t side = 0, parts = 1, of = 1;
};

// The share that a length rounded to whole nanometres stands for, unless it is exact as it is.
std::optional<Share> share_of(std::int64_t length, std::int64_t side) {
  for (std::int64_t of = 2; of <= most_parts; ++of) {
    const std::int64_t parts = (of * length + side / 2) / side;
    const std::int64_t off = of * length - parts * side;
    if (parts == 0 || parts == of || off >= of || off <= -of) continue;
    if (off == 0) return std::nullopt;
    return Share{side, parts, of};
  }
  return std::nullopt;
}

std::optional<Share> share_of(std::int64_t length, const cut::Job& job) {
  for (const cut::SheetType& sheet : job.sheets)
    for (const std::int64_t side : {sheet.width, sheet.height})
      if (const auto share = share_of(length, side)) return share;
  return std::nullopt;
}

void coarsen(Length& length, std::int64_t fine) { length.nm = (length.nm + fine / 2) / fine; }
void coarsen(Size& size, std::int64_t fine) {
  coarsen(size.width, fine);
  coarsen(size.height, fine);
}
void coarsen(Rect& rect, std::int64_t fine) {
  coarsen(rect.origin.x, fine);
  coarsen(rect.origin.y, fine);
  coarsen(rect.size, fine);
}

} // namespace

std::int64_t refine(cut::Job& job) {
  std::int64_t fine = 1;
  for (const cut::PieceType& piece : job.pieces)
    for (const std::int64_t length : {piece.width, piece.height})
      if (const auto share = share_of(length, job)) fine = std::lcm(fine, share->of);
  if (fine == 1 || fine > finest) return 1;
  for (cut::PieceType& piece : job.pieces)
    for (cut::Length* length : {&piece.width, &piece.height}) {
      const auto share = share_of(*length, job);
      *length = share ? share->side * share->parts * (fine / share->of) : *length * fine;
    }
  for (cut::SheetType& sheet : job.sheets) {
    sheet.width *= fine;
    sheet.height *= fine;
  }
  cut::Rules& rules = job.rules;
  for (cut::Length* length : {&rules.blade, &rules.trim.left, &rules.trim.right, &rules.trim.bottom,
                              &rules.trim.top, &rules.smallest_strip})
    *length *= fine;
  return fine;
}

void coarsen(SheetLayout& layout, std::int64_t fine) {
  if (fine == 1) return;
  coarsen(layout.sheet, fine);
  for (Placed& placed : layout.pieces) coarsen(placed.box, fine);
  for (Rect& leftover : layout.leftovers) coarsen(leftover, fine);
  for (SheetLayout::Move& move : layout.moves) {
    coarsen(move.from, fine);
    coarsen(move.at, fine);
  }
  for (Round& round : layout.work.rounds) {
    coarsen(round.part, fine);
    for (Setting& setting : round.settings) coarsen(setting.fence, fine);
  }
}

} // namespace leafwright::supply
