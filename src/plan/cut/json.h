#pragma once

#include "plan/cut/cut.h"

#include <string>

namespace leafwright::cut {

/// Job and plan as one JSON object (RFC 8259), lengths in the job's own unit: sheets, cost, bound,
/// whether proven, seconds, findings, and each pattern with its count and the placed pieces
/// (id, x, y, width, height, turned) and leftovers.
std::string to_json(const Job& job, const Plan& plan);

} // namespace leafwright::cut
