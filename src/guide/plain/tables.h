#pragma once

#include "guide/block.h"

#include <cstddef>
#include <string>

// Tables as text. For this folder.

namespace leafwright::guide::plaintext {

// Side by side within `width`; the widest columns give way and turn their words over.
std::string in_columns(const Table& table, std::size_t width);
// Three columns at most: a line a row. More: under each column's head what its rows say.
std::string told(const Table& table, std::size_t width);

} // namespace leafwright::guide::plaintext
