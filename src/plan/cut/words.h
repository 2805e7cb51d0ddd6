#pragma once

#include "plan/cut/cut.h"

#include <string>

namespace leafwright::cut {

/// What the plan and its bound prove, in one sentence.
std::string proof_in_words(const Plan& plan, const Job& job);

/// What is to be added where the clock or the caller ended the search; empty otherwise.
std::string hurry_in_words(const Plan& plan);

} // namespace leafwright::cut
