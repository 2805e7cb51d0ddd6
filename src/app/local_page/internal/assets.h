#pragma once

#include "app/local_page/internal/exchange.h"

#include <string>

// The page itself: what lies in templates/page/ and fonts/ of the program's data, by the names that
// these folders list. No path is ever made from a request.

namespace leafwright::local_page {

Response asset(const std::string& data_folder, const Request& request);

} // namespace leafwright::local_page
