#pragma once

#include "plan/cut/finish.h"

#include <vector>

namespace leafwright::cut {

/// The plan's patterns in the job's own unit, most sheets first; waste is pushed outwards so that
/// it stays in large pieces.
std::vector<Pattern> lay_out(const Job& job, const Normal& normal,
                             const std::vector<Batch>& batches);

} // namespace leafwright::cut
