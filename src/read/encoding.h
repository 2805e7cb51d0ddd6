#pragma once

#include "read/journal.h"
#include "read/source.h"

namespace leafwright::reading {

// Whether the text is UTF-8 without NUL and control characters; the first fault of each kind is
// reported.
bool check_encoding(const SourceText& source, std::int32_t file, Journal& journal);

} // namespace leafwright::reading
