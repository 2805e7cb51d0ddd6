#pragma once

#include "read/journal.h"
#include "read/source.h"

namespace leafwright::reading {

// Whether a text is well-formed XML 1.0 without a document type, in UTF-8, not nested deeper than
// `most_depth`. The XML library is lenient (duplicate attributes, unknown entities, several roots,
// broken UTF-8), so every such fault becomes a finding here, before the library sees the text. One
// pass, linear in the length. Returns false when the text cannot be read on.
bool check_well_formed(const SourceText& source, std::int32_t file, std::size_t most_depth,
                       Journal& journal);

} // namespace leafwright::reading
