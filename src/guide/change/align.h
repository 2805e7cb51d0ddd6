#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace leafwright::guide {

// Which entries of two lists are the same, in order: the longest common run (dynamic programming).
// For each entry of `b` its partner in `a`, or nothing.
std::vector<std::optional<std::size_t>> aligned(const std::vector<std::string>& a,
                                                const std::vector<std::string>& b);

} // namespace leafwright::guide
