#pragma once

#include "plan/cut/normal.h"

#include <string>

namespace leafwright::cut {

/// What the plan and its bound prove, in one sentence.
std::string proof_in_words(const Plan& plan, const Job& job);

} // namespace leafwright::cut
