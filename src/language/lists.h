#pragma once

#include <string>
#include <vector>

namespace leafwright::words {

// "stamping, ribbon, bow": for labels and cells, where a joining word has no room. Sentences take
// `listed` of words.h.
std::string series(const std::vector<std::string>& parts);

// A list in a sentence; where a part holds commas or an "and" of its own, semicolons stand between:
// "ink in moss and rust; 2 3/4 in circle die; sponge".
std::string listed_apart(const std::vector<std::string>& parts);

} // namespace leafwright::words
