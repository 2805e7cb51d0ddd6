#pragma once

#include "guide/block.h"

#include <string>

namespace leafwright::guide {

// Everything that a drawing shows, as text: two scenes look alike when these are equal. Long; to be
// compared, not printed.
std::string fingerprint(const figure::Scene& scene);
// Of its lines and places alone, whatever their colors and the words read out for it.
std::string shape_fingerprint(const figure::Scene& scene);
// The same of a block, with its words.
std::string fingerprint(const Block& block);

} // namespace leafwright::guide
