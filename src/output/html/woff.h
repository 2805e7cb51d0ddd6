#pragma once

#include <string>
#include <string_view>

namespace leafwright::html {

// A TrueType or OpenType font as WOFF 1.0 (W3C Recommendation, 13 December 2012): the same tables,
// each compressed where that makes it smaller. Empty when the font is damaged.
std::string woff(std::string_view font);

} // namespace leafwright::html
