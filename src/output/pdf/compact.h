#pragma once

#include "measure/parsed.h"

#include <string>

namespace leafwright::pdf {

// The same document with its small objects in compressed object streams (ISO 32000-1, 7.5.7). For a
// tagged booklet about half the size, at several times the wait.
Parsed<std::string> compacted(const std::string& pdf);

} // namespace leafwright::pdf
