#pragma once

#include "guide/figure/label_candidates.h"

namespace leafwright::figure {

// Draws one placed label onto `composed` and lists its boxes and lines there. `shift` is where the
// ground's (0, 0) lies in the drawing.
void draw_label(const Scene& scene, const Wish& wish, const Candidate& candidate, Point shift,
                const Look& look, const Lettering& lettering, Composed& composed);

} // namespace leafwright::figure
