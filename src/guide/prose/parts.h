#pragma once

#include "guide/prose/pieces.h"

#include <vector>

// The line of what a step takes: "(C) dotted mat, tape runner".

namespace leafwright::guide {

enum class Parts { All, Preparing, Fixing };

Inlines piece_parts(const Telling& telling, const Together& pieces, Parts which);
Inlines ribbon_parts(const Telling& telling, const RibbonUse& use);
Inlines embellishment_parts(const Telling& telling, const EmbellishmentUse& use);
Inlines stamping_parts(const Telling& telling, const std::vector<Impression>& stamped);

} // namespace leafwright::guide
