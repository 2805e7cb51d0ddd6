#pragma once

#include "guide/prose/pieces.h"

#include <string>

// Short titles of steps: "Lay the dotted mat", "Raise the label".

namespace leafwright::guide {

// `prepared`: an earlier step has stamped or cut it.
std::string piece_title(const Telling& telling, const Together& pieces, bool prepared);
std::string preparing_title(const Telling& telling, const Together& pieces);
std::string stamping_title(const Telling& telling, const Carrier& on);

} // namespace leafwright::guide
