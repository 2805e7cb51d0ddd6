#include "records/csv.h"

#include <algorithm>
#include <string_view>

namespace leafwright::records {

namespace {

bool is_number(std::string_view cell) {
  if (!cell.empty() && cell.front() == '-') cell.remove_prefix(1);
  return !cell.empty() && std::all_of(cell.begin(), cell.end(),
                                      [](char c) { return (c >= '0' && c <= '9') || c == '.'; });
}

bool formula_like(std::string_view cell) {
  return !cell.empty() &&
         std::string_view("=+-@\t\r").find(cell.front()) != std::string_view::npos &&
         !is_number(cell);
}

std::string csv_cell(const std::string& cell) {
  std::string safe = formula_like(cell) ? "'" + cell : cell;
  if (safe.find_first_of(",\"\r\n") == std::string::npos) return safe;
  std::string out = "\"";
  for (const char c : safe) {
    if (c == '"') out += '"';
    out += c;
  }
  return out + "\"";
}

} // namespace

std::string csv_row(const std::vector<std::string>& cells) {
  std::string row;
  for (std::size_t i = 0; i < cells.size(); ++i) row += (i > 0 ? "," : "") + csv_cell(cells[i]);
  return row + "\r\n";
}

} // namespace leafwright::records
