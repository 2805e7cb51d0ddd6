#pragma once

#include "plan/cut/finish.h"

#include <vector>

namespace leafwright::cut {

/// Of many plans with the same sheets, free ones and ones in strips, the one that gives a person
/// least trouble: few fence settings and cuts, a large offcut. For a few pieces on one stock;
/// otherwise `batches` come back.
std::vector<Batch> most_pleasant(const Job& job, Search& search, std::vector<Batch> batches);

} // namespace leafwright::cut
