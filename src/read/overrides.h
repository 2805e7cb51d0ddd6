#pragma once

#include "read/context.h"
#include "read/document.h"

namespace leafwright::reading {

// Applies `mat.width=4 in` and the like to the tree; the sources from `first` on are the overrides
// as they were given. What names nothing is a finding.
void apply_overrides(Context& context, Document& document, std::int32_t first);

} // namespace leafwright::reading
