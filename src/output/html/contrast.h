#pragma once

#include "model/shape.h"

namespace leafwright::html {

// Contrast ratio of two colours, 1 to 21, and what text needs at least (WCAG 2.2, "contrast ratio",
// "relative luminance", and success criterion 1.4.3).
double contrast_ratio(Colour a, Colour b);
inline constexpr double readable = 4.5;

// `colour`, darkened no more than it takes to be read on `ground`.
Colour darkened_on(Colour colour, Colour ground);

} // namespace leafwright::html
