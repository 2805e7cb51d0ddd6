#pragma once

#include <string_view>

// Countries by name and by code (ISO 3166-1 alpha-2), for addresses.

namespace leafwright::words {

struct Country {
  std::string_view code, name; // "IE", "Ireland"
};

// By its code, its English name, or an everyday word for it ("USA", "UK"), capitals or not; nothing
// for anything else.
const Country* country_of(std::string_view words);

} // namespace leafwright::words
