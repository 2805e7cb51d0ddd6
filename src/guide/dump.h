#pragma once

#include "guide/block.h"

#include <string>

namespace leafwright::guide {

// A document as plain text, for tests and for reading its prose aloud. Letters stand in brackets,
// drawings by their alternative text.
std::string dump(const Document& document);
std::string dump(const Section& section);

} // namespace leafwright::guide
