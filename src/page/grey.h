#pragma once

#include "page/laid.h"

namespace leafwright::page {

// A colour as the grey of its luma (ITU-R BT.601, from memory).
Colour grey_of(Colour colour);

// Every colour becomes its grey, for printers without colour and to see whether everything can
// still be told apart. Photographs stay as they are.
void make_grey(std::vector<DrawItem>& items);
void make_grey(Laid& laid);

} // namespace leafwright::page
