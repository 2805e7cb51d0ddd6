#include "plan/supply/consumption.h"

#include <algorithm>

namespace leafwright::supply {

namespace {

constexpr Length corner = inches(0, 1, 4);     // tape left out at each corner
constexpr Length least_tape = inches(0, 1, 4); // shorter pieces of tape do not hold
constexpr Length least_overlap = inches(0, 1, 2);

// How many spacings have begun over `length`.
std::int64_t begun(std::int64_t whole, std::int64_t part) { return (whole + part - 1) / part; }

std::int64_t squares(const Adhesive& adhesive, Size piece) {
  const std::int64_t spacing = std::max<std::int64_t>(adhesive.spacing.nm, micrometres(100).nm);
  if (is_strip(piece, adhesive))
    return std::max<std::int64_t>(2, begun(std::max(piece.width.nm, piece.height.nm), spacing));
  const std::int64_t each = std::max<std::int64_t>(area({{spacing}, {spacing}}).um2, 1);
  return std::max<std::int64_t>(4, begun(area(piece).um2, each));
}

Length tape(const Adhesive& adhesive, Size piece) {
  if (is_strip(piece, adhesive))
    return std::max(std::max(piece.width, piece.height) - 2 * corner, least_tape);
  return std::max(2 * (piece.width + piece.height) - 4 * corner, least_tape);
}

} // namespace

bool is_strip(Size piece, const Adhesive& adhesive) {
  const Length shorter = std::min(piece.width, piece.height);
  if (adhesive.measured == Adhesive::Measured::ByCount) {
    const Length square = std::max(adhesive.piece.width, adhesive.piece.height);
    return shorter < (square > Length{} ? 2 * square : adhesive.spacing);
  }
  const Length width = adhesive.piece.width;
  return shorter < (width > Length{} ? 2 * width : 2 * corner);
}

Consumption consumption_of(const Adhesive& adhesive, const Attach& attach, Size piece) {
  const std::int64_t layers = std::max(attach.layers, 1);
  Consumption taken;
  if (adhesive.kind == Adhesive::Kind::Sheet) {
    taken.area = area(piece) * layers;
    return taken;
  }
  switch (adhesive.measured) {
  case Adhesive::Measured::ByCount:
    taken.count = (attach.count ? *attach.count : squares(adhesive, piece)) * layers;
    break;
  case Adhesive::Measured::ByLength:
    taken.length = (attach.length ? *attach.length : tape(adhesive, piece)) * layers;
    break;
  case Adhesive::Measured::ByMass:
    taken.mass = mass_of(area(piece), adhesive.spread) * layers;
    break;
  }
  return taken;
}

Consumption consumption_of(const Adhesive& adhesive, const RibbonUse& use, Length ribbon_width) {
  const Length overlap = std::max(use.extra, least_overlap);
  Consumption taken;
  if (adhesive.kind == Adhesive::Kind::Sheet) {
    taken.area = area({overlap, ribbon_width});
    return taken;
  }
  switch (adhesive.measured) {
  case Adhesive::Measured::ByCount: taken.count = 2; break;
  case Adhesive::Measured::ByLength: taken.length = overlap; break;
  case Adhesive::Measured::ByMass:
    taken.mass = mass_of(area({overlap, ribbon_width}), adhesive.spread);
    break;
  }
  return taken;
}

} // namespace leafwright::supply
