#pragma once

#include <cstdint>
#include <string>

// For the printers of this room.

namespace leafwright::detail {

// `count` times 10^-places without trailing zeros: (10795, 2) is "107.95", (500, 2) is "5".
// count >= 0, places 0 to 18.
std::string decimal_text(std::int64_t count, int places);

} // namespace leafwright::detail
