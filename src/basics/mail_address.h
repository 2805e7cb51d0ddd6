#pragma once

#include <string>
#include <string_view>

namespace leafwright {

// Letters, digits and the signs of a plain address around one @ (the dot-atom form of RFC 5322,
// 3.4.1, ASCII).
bool is_mail_address(std::string_view text);
// The first such address among other words; empty when there is none.
std::string mail_address_in(std::string_view text);

} // namespace leafwright
