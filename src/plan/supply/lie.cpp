#include "plan/supply/lie.h"

#include <algorithm>

namespace leafwright::supply {

Lie wished_lie(const Stock& stock, const Piece& piece) {
  if (stock.upright) return Lie::Upright;
  if (stock.grain == Stock::Grain::Unknown || piece.scores.empty()) return Lie::Either;
  const bool vertical = piece.scores.front().vertical;
  const bool one_way =
      std::all_of(piece.scores.begin(), piece.scores.end(),
                  [vertical](const Score& score) { return score.vertical == vertical; });
  if (!one_way) return Lie::Either;
  const bool along_height = stock.grain == Stock::Grain::AlongHeight;
  return vertical == along_height ? Lie::Upright : Lie::Turned;
}

bool fits_a_sheet(const Stock& stock, Size rectangle, Lie lie) {
  return std::any_of(stock.sheets.begin(), stock.sheets.end(), [&](const SheetOffer& offer) {
    return (lie != Lie::Turned && fits(rectangle, offer.size)) ||
           (lie != Lie::Upright && fits(rectangle.turned(), offer.size));
  });
}

Lie lie_of(const Stock& stock, const Piece& piece) {
  const Lie wished = wished_lie(stock, piece);
  if (stock.upright || fits_a_sheet(stock, rectangle_of(piece), wished)) return wished;
  return Lie::Either;
}

Size rectangle_of(const Piece& piece) {
  return piece.cut_from == Size{} ? piece.size : piece.cut_from;
}

} // namespace leafwright::supply
