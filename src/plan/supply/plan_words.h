#pragma once

#include "plan/cut/cut.h"

#include <cstdint>
#include <string>

// What a plan of the cutter proves, and why a job cannot be done, in sentences.

namespace leafwright::supply {

// What the plan and its bound prove: "12 sheets; no straight-cut plan can use fewer than 12".
std::string proof_in_words(const cut::Plan& plan, const cut::Job& job);

// What is to be added where the clock or the caller ended the search; empty otherwise.
std::string hurry_in_words(const cut::Plan& plan);

// Why there is no plan, in the job's own unit.
std::string fault_in_words(const cut::JobFault& fault, const cut::Job& job);

// What another plan might save at the most, of a plan that costs `cost` where none can cost less
// than `bound`: "0.5 %". Rounded up, for it is a bound.
std::string most_saved(std::int64_t cost, std::int64_t bound);

} // namespace leafwright::supply
