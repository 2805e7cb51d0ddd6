#include "guide/plain/tables.h"

#include "guide/plain/lines.h"
#include "guide/prose/prose.h"

#include <algorithm>
#include <vector>

namespace leafwright::guide::plaintext {
namespace {

using Cells = std::vector<std::string>;

Cells cells_of(const Table& table, const std::vector<Inlines>& cells) {
  Cells texts;
  for (std::size_t c = 0; c < table.columns.size(); ++c)
    texts.push_back(c < cells.size() ? spoken(cells[c]) : std::string());
  return texts;
}

// The widest column gives way until all fit, one blank at the edges and two between.
std::vector<std::size_t> widths_of(const Table& table, const std::vector<Cells>& rows,
                                   std::size_t width) {
  std::vector<std::size_t> widths(table.columns.size(), 1);
  for (std::size_t r = 0; r < rows.size(); ++r) {
    if (r > 0 && table.rows[r - 1].kind == Row::Kind::Group) continue;
    for (std::size_t c = 0; c < widths.size(); ++c)
      widths[c] = std::max(widths[c], columns_of(rows[r][c]));
  }
  const auto total = [&] {
    std::size_t sum = 2;
    for (const std::size_t one : widths) sum += one + 2;
    return sum;
  };
  constexpr std::size_t least = 8;
  while (total() > width) {
    const auto widest = std::max_element(widths.begin(), widths.end());
    if (*widest <= least) break;
    --*widest;
  }
  return widths;
}

std::string row_of(const Table& table, const Cells& cells, const std::vector<std::size_t>& widths) {
  std::vector<Cells> lines;
  std::size_t height = 1;
  for (std::size_t c = 0; c < cells.size(); ++c) {
    lines.push_back(lines_of(cells[c], widths[c]));
    height = std::max(height, lines.back().size());
  }
  std::string out;
  for (std::size_t l = 0; l < height; ++l) {
    std::string line = " ";
    for (std::size_t c = 0; c < cells.size(); ++c) {
      const std::string text = l < lines[c].size() ? lines[c][l] : std::string();
      const std::string fill(widths[c] - std::min(columns_of(text), widths[c]), ' ');
      const bool right = table.columns[c].align == Column::Align::Right;
      line += " " + (right ? fill + text : text + fill) + " ";
    }
    line.erase(line.find_last_not_of(' ') + 1);
    out += line + "\n";
  }
  return out;
}

std::string row_told(const Table& table, const Row& row, std::size_t width) {
  std::string line;
  for (std::size_t c = 0; c < row.cells.size() && c < table.columns.size(); ++c) {
    const std::string cell = spoken(row.cells[c]);
    if (cell.empty()) continue;
    line += (line.empty() ? "" : c == 1 ? ": " : "; ") + cell;
  }
  return wrapped(line, width, row.kind == Row::Kind::Group ? "" : "- ", "  ");
}

} // namespace

std::string in_columns(const Table& table, std::size_t width) {
  std::vector<Inlines> heads;
  for (const Column& column : table.columns) heads.push_back(column.head);
  std::vector<Cells> rows{cells_of(table, heads)};
  for (const Row& row : table.rows) rows.push_back(cells_of(table, row.cells));
  const std::vector<std::size_t> widths = widths_of(table, rows, width);
  std::string out;
  for (std::size_t r = 0; r < rows.size(); ++r) {
    const bool group = r > 0 && table.rows[r - 1].kind == Row::Kind::Group;
    out += group ? wrapped(rows[r].front(), width) : row_of(table, rows[r], widths);
  }
  return out;
}

std::string told(const Table& table, std::size_t width) {
  std::string out;
  constexpr std::size_t narrow = 3;
  if (table.columns.size() <= narrow) {
    for (const Row& row : table.rows) out += row_told(table, row, width);
    return out;
  }
  for (std::size_t c = 1; c < table.columns.size(); ++c) {
    if (!out.empty()) out += "\n";
    out += wrapped(spoken(table.columns[c].head), width, "* ", "  ");
    for (const Row& row : table.rows) {
      if (row.kind == Row::Kind::Group || c >= row.cells.size()) continue;
      const std::string cell = spoken(row.cells[c]);
      if (cell.empty() || cell == "–") continue;
      out += wrapped(spoken(row.cells.front()) + ": " + cell, width, "  - ", "    ");
    }
  }
  return out;
}

} // namespace leafwright::guide::plaintext
