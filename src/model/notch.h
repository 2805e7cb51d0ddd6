#pragma once

#include "model/card.h"

// A half round cut out of the middle of an edge, so that a thumb reaches what lies behind.

namespace leafwright {

// As a window of the piece whose flat side lies on that edge.
Window notch_window(Window::Notch edge, Length radius, Size piece);
// The edge of a rectangle with all its notches cut out, where it has any; else an empty path.
Path notched_rectangle(const Piece& piece);

} // namespace leafwright
