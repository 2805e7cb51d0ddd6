#pragma once

#include <optional>
#include <string>

namespace leafwright::app {

// Where fonts/ and templates/ are. Tried in this order: the environment's LEAFWRIGHT_DATA, the
// folders above the running program (a build inside the sources), ../share/leafwright beside an
// installed one.
std::optional<std::string> find_data_folder(const char* environment);

} // namespace leafwright::app
