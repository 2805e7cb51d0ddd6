#pragma once

#include <cstdint>
#include <string>

namespace leafwright::supply {

// What another plan might save at the most, of a plan that costs `cost` where none can cost less
// than `bound`: "0.5 %". Rounded up, for it is a bound.
std::string most_saved(std::int64_t cost, std::int64_t bound);

} // namespace leafwright::supply
