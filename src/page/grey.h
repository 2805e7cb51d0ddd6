#pragma once

#include "page/laid.h"

namespace leafwright::page {

// Every colour becomes the grey of its luma (ITU-R BT.601, from memory), for printers without
// colour and to see whether everything can still be told apart. Photographs stay as they are.
void make_grey(Laid& laid);

} // namespace leafwright::page
