#pragma once

#include "guide/block.h"
#include "guide/prose/telling.h"

#include <string>

namespace leafwright::guide {

// The making of one card, step by step, each with its drawing. Anchors are `anchor`-step-1 ...
Steps steps_of(const Telling& telling, const std::string& anchor);

} // namespace leafwright::guide
