#pragma once

#include <string>
#include <string_view>

namespace leafwright::guide::words {

// The first letter in capitals, looking past opening quotes and brackets; Latin letters of
// Unicode's first two blocks are known, all else stays: "étoile" -> "Étoile", "3 in" -> "3 in".
std::string sentence_case(std::string_view text);

} // namespace leafwright::guide::words
