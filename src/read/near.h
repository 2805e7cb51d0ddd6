#pragma once

#include <span>
#include <string>
#include <string_view>

namespace leafwright::reading {

// The candidate that `word` was most likely meant to be, or nothing when none is near: at most a
// third of its letters inserted, deleted, replaced or swapped with a neighbour (optimal string
// alignment distance). Case, hyphens and underscores hardly count. The first of equals wins.
std::string_view nearest_name(std::string_view word, std::span<const std::string_view> candidates);

// "did you mean mat?" or, with nothing near, the first few candidates: "one of base, mat, scene".
std::string did_you_mean(std::string_view word, std::span<const std::string_view> candidates);

} // namespace leafwright::reading
