#pragma once

#include "guide/figure/paint.h"

namespace leafwright::figure {

void draw_envelope_front(Items& into, Colour paper, Size size);
// Lying on its face with the flap open: what lies inside is seen. The pockets come after it.
void draw_envelope_inside(Items& into, Colour paper, Size size);
// The pockets of the back, over what lies inside.
void draw_envelope_pockets(Items& into, Colour paper, Size size);

} // namespace leafwright::figure
