#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace leafwright::words {

// "stamping, ribbon, bow": for labels and cells, where a joining word has no room. Sentences take
// `listed` of words.h.
std::string series(const std::vector<std::string>& parts);

// What stands before part `i` of `n` in such a sentence, for parts that are more than text: ", " or
// " and ", before the first nothing.
std::string joint(std::size_t i, std::size_t n, std::string_view joined_by = "and");

// A list in a sentence; where a part holds commas or an "and" of its own, semicolons stand between:
// "ink in moss and rust; 2 3/4 in circle die; sponge".
std::string listed_apart(const std::vector<std::string>& parts);

} // namespace leafwright::words
