#pragma once

#include "model/outline.h"

// The outline that runs at one distance outside another, as a mat does round a shaped layer:
// corners become arcs, so that every point of it is as far away.

namespace leafwright {

// Of an outline of `size`; its box is larger by `by` on every side. A rectangle stays one, since
// that is how a mat is cut. `by` is not negative. Holes are left out: a mat has none.
Shape offset_shape(const Shape& shape, Size size, Length by);

} // namespace leafwright
