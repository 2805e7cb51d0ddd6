#pragma once

#include "plan/cut/finish.h"

#include <vector>

namespace leafwright::cut {

/// Of many plans with the same sheets and at least as large an offcut, the one with the fewest
/// fence settings, then the fewest cuts. For a few pieces on one stock; otherwise `batches` come
/// back.
std::vector<Batch> most_pleasant(const Job& job, Search& search, std::vector<Batch> batches);

} // namespace leafwright::cut
