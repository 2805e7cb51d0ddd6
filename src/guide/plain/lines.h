#pragma once

#include "guide/block.h"

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

// Lines of text.

namespace leafwright::guide::plaintext {

// One for a character: our words hold no wide ones.
std::size_t columns_of(std::string_view text);

// Spaces that never break, and wide ones, as common blanks; for when lines are broken.
std::string with_common_blanks(std::string text);

// Words put into lines of at most `width` columns, a longer word on a line of its own; at least one
// line. No-break spaces hold.
std::vector<std::string> lines_of(std::string_view text, std::size_t width);

// The lines with their ends; the first begins with `first`, the others with `rest`.
std::string wrapped(std::string_view text, std::size_t width, std::string_view first = {},
                    std::string_view rest = {});

// Tables as text.

// Side by side within `width`; the widest columns give way and turn their words over.
std::string in_columns(const Table& table, std::size_t width);
// Three columns at most: a line a row. More: under each column's head what its rows say.
std::string told(const Table& table, std::size_t width);

} // namespace leafwright::guide::plaintext
