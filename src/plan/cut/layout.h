#pragma once

#include "plan/cut/search.h"

#include <span>
#include <vector>

namespace leafwright::cut {

/// The plan's patterns in the job's own unit: copies beyond the demand dropped, sheets alike
/// counted together, waste pushed outwards so that it stays in large pieces.
std::vector<Pattern> lay_out(const Job& job, const Search& search, const Sheets& sheets);

/// One slicing tree on its sheet. Pieces are numbered by type for the time being.
Pattern lay_out_slice(const Job& job, const Normal& normal, int stock, const Slice& slice);

} // namespace leafwright::cut
