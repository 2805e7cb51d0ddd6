#pragma once

#include <string>
#include <vector>

namespace leafwright::records {

// One row with its line end (CRLF, RFC 4180 2.1). Cells are quoted where they must be; a cell that
// begins like a formula (= + - @ tab return) and is no number gets an apostrophe in front.
std::string csv_row(const std::vector<std::string>& cells);

} // namespace leafwright::records
