#pragma once

#include <string>
#include <string_view>

namespace leafwright::guide::words {

// Puts no-break spaces where a measure would fall apart at the end of a line: inside "2 3/4 in",
// "12 × 12 in", "80 lb", "35 min"; written by an author with plain blanks.
std::string tie_measures(std::string_view text);

} // namespace leafwright::guide::words
