#pragma once

#include "measure/shape.h"

#include <vector>

namespace leafwright {

// An outline in real lengths. Curve is a cubic Bezier with its two control points first.
struct Segment {
  enum class Kind { Move, Line, Curve, Close };
  Kind kind = Kind::Move;
  Point control1, control2; // Curve only
  Point end;                // unused for Close
  friend bool operator==(const Segment&, const Segment&) = default;
};

using Path = std::vector<Segment>;

} // namespace leafwright
