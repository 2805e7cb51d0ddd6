#pragma once

namespace leafwright::reading {

// Columns of one character on a terminal: 0 for combining marks and other invisible ones, 2 for
// East Asian wide and fullwidth ones and emoji, else 1. Ranges after UAX #11 (Unicode 15) and
// general category Mn, in blocks rather than single points.
int columns_of(char32_t c);

} // namespace leafwright::reading
