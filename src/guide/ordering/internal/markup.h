#pragma once

#include <string>
#include <string_view>

namespace leafwright::guide {

// As words of HTML or XML, or between double quotes.
std::string markup_text(std::string_view text);

} // namespace leafwright::guide
