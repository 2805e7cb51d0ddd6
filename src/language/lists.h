#pragma once

#include <string>
#include <vector>

namespace leafwright::words {

// "stamping, ribbon, bow": for labels and cells, where a joining word has no room. Sentences take
// `listed` of words.h.
std::string series(const std::vector<std::string>& parts);

} // namespace leafwright::words
