#include "read/csv/csv.h"

#include "basics/utf8.h"
#include "language/agreement.h"

#include <algorithm>
#include <array>
#include <utility>

namespace leafwright::csv {

namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

bool same_name(std::string_view a, std::string_view b) {
  return a.size() == b.size() && std::equal(a.begin(), a.end(), b.begin(),
                                            [](char x, char y) { return lower(x) == lower(y); });
}

std::string shortened(std::string_view text) {
  constexpr std::size_t most = 40;
  std::string result;
  for (const char c : text) {
    if (result.size() >= most && detail::begins_character(c)) return result + "...";
    result += c == '\n' || c == '\r' ? ' ' : c;
  }
  return result;
}

char most_used_separator(std::string_view text) {
  constexpr std::array<char, 3> candidates = {',', ';', '\t'};
  std::array<int, 3> counts{};
  bool quoted = false;
  bool any = false;
  for (const char c : text) {
    if (c == '"') quoted = !quoted;
    if (quoted) continue;
    // Blank lines before the header say nothing.
    if ((c == '\n' || c == '\r') && any) break;
    any = any || (c != '\n' && c != '\r');
    for (std::size_t k = 0; k < candidates.size(); ++k) {
      if (c == candidates.at(k)) ++counts.at(k);
    }
  }
  const auto best = std::max_element(counts.begin(), counts.end()); // the first of equals
  return candidates.at(static_cast<std::size_t>(best - counts.begin()));
}

class Reader {
 public:
  Reader(std::string_view text, Table& table) : text_(text), table_(table) {}

  std::vector<Row> rows() {
    std::vector<Row> rows;
    while (!at_end()) {
      Row row = read_row();
      const bool blank =
          row.cells.size() == 1 && trimmed(row.cells[0].text).empty() && !quoted_cell_;
      if (!blank) rows.push_back(std::move(row));
    }
    return rows;
  }

 private:
  bool at_end() const { return at_ >= text_.size(); }
  char peek() const { return text_[at_]; }
  bool at_line_end() const { return at_end() || peek() == '\n' || peek() == '\r'; }

  void report(CellPlace place, std::string_view found, std::string expected, std::string fix,
              Problem::Kind kind = Problem::Kind::Text) {
    table_.problems.push_back({place, shortened(found), std::move(expected), std::move(fix), kind});
  }

  // One byte onwards; CR LF counts as one line end.
  void step() {
    const char c = text_[at_++];
    const bool line_ends = c == '\n' || (c == '\r' && (at_end() || peek() != '\n'));
    if (line_ends) {
      ++place_.line;
      place_.column = 1;
    } else if (c != '\r' && (at_end() || detail::begins_character(peek()))) {
      ++place_.column;
    }
  }

  Row read_row() {
    Row row;
    row.place = place_;
    quoted_cell_ = false;
    while (true) {
      row.cells.push_back(read_cell());
      if (at_end() || peek() != table_.separator) break;
      step();
    }
    if (!at_end() && peek() == '\r') step();
    if (!at_end() && peek() == '\n') step();
    return row;
  }

  Cell read_cell() {
    Cell cell;
    cell.place = place_;
    if (!at_end() && peek() == '"') {
      quoted_cell_ = true;
      read_quoted(cell);
    } else {
      read_plain(cell);
    }
    if (cell.text.find('\0') != std::string::npos) {
      report(cell.place, "a zero byte", "text", "save the table as UTF-8 text");
      std::erase(cell.text, '\0');
    }
    return cell;
  }

  void read_plain(Cell& cell) {
    const CellPlace begin = place_;
    bool quote = false;
    while (!at_line_end() && peek() != table_.separator) {
      quote = quote || peek() == '"';
      cell.text += peek();
      step();
    }
    if (quote) {
      report(begin, cell.text, "quotes around the whole cell or none",
             "put the cell in quotes and double each quote inside it");
    }
  }

  void read_quoted(Cell& cell) {
    const CellPlace begin = place_;
    step();
    while (!at_end()) {
      if (peek() != '"') {
        cell.text += peek();
        step();
        continue;
      }
      step();
      if (at_end() || peek() != '"') {
        read_after_quote(cell);
        return;
      }
      cell.text += '"';
      step();
    }
    report(begin, cell.text, "a closing quote before the end of the table",
           "close the quote that opens here", Problem::Kind::Quote);
  }

  void read_after_quote(Cell& cell) {
    const CellPlace begin = place_;
    std::string more;
    while (!at_line_end() && peek() != table_.separator) {
      more += peek();
      step();
    }
    if (trimmed(more).empty()) return;
    report(begin, more, "a separator or the end of the line after the closing quote",
           "double the quote if it belongs to the text, or remove what follows it",
           Problem::Kind::Quote);
    cell.text += more;
  }

  std::string_view text_;
  Table& table_;
  std::size_t at_ = 0;
  CellPlace place_;
  bool quoted_cell_ = false;
};

std::string cells_text(std::size_t count) {
  const auto n = static_cast<std::int64_t>(count);
  return std::to_string(n) + " " + words::noun_for(n, "cell");
}

void check_header(Table& table) {
  const std::vector<Cell>& cells = table.header.cells;
  for (std::size_t k = 0; k < cells.size(); ++k) {
    const std::string_view name = trimmed(cells[k].text);
    if (name.empty()) {
      table.problems.push_back({cells[k].place, "", "a name for every column",
                                "name the column in the first line", Problem::Kind::Header});
      continue;
    }
    for (std::size_t other = 0; other < k; ++other) {
      if (!same_name(name, trimmed(cells[other].text))) continue;
      table.problems.push_back({cells[k].place, shortened(name), "each column named once",
                                "remove or rename one of the two columns", Problem::Kind::Header});
      break;
    }
  }
}

void check_widths(Table& table) {
  const std::size_t wanted = table.header.cells.size();
  for (const Row& row : table.rows) {
    const std::size_t count = row.cells.size();
    if (count == wanted) continue;
    const CellPlace place = count > wanted ? row.cells[wanted].place : row.place;
    table.problems.push_back(
        {place, cells_text(count), cells_text(wanted) + ", as the first line has",
         count > wanted ? "quote a cell that contains the separator, or remove the extra cells"
                        : "add the missing cells; they may be empty",
         Problem::Kind::Width});
  }
}

// By its mark, or by the zero bytes beside letters of the first line.
bool is_utf_16(std::string_view text) {
  if (text.starts_with("\xFF\xFE") || text.starts_with("\xFE\xFF")) return true;
  constexpr std::size_t looked_at = 64;
  const std::string_view begin = text.substr(0, looked_at);
  const auto zeros = static_cast<std::size_t>(std::ranges::count(begin, '\0'));
  return begin.size() >= 4 && zeros * 3 >= begin.size();
}

} // namespace

std::string_view trimmed(std::string_view text) {
  const auto first = text.find_first_not_of(" \t");
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

std::optional<std::size_t> Table::column(std::string_view name) const {
  for (std::size_t k = 0; k < header.cells.size(); ++k) {
    if (same_name(trimmed(header.cells[k].text), trimmed(name))) return k;
  }
  return std::nullopt;
}

const Cell* Table::cell(const Row& row, std::size_t column) {
  return column < row.cells.size() ? &row.cells[column] : nullptr;
}

Table read(std::string_view text) {
  Table table;
  if (is_utf_16(text)) {
    table.problems.push_back(
        {{}, "UTF-16 text", "UTF-8 text", "save the table as CSV in UTF-8", Problem::Kind::Header});
    return table;
  }
  if (text.starts_with(byte_order_mark)) text.remove_prefix(byte_order_mark.size());
  table.separator = most_used_separator(text);
  std::vector<Row> rows = Reader(text, table).rows();
  // A line for spreadsheets alone, which names the separator.
  if (!rows.empty() && rows.front().cells.size() == 2 && rows.front().cells[0].text == "sep=" &&
      rows.front().cells[1].text.empty())
    rows.erase(rows.begin());
  if (rows.empty()) {
    table.problems.push_back({{},
                              "",
                              "a first line that names the columns",
                              "add the line of column names",
                              Problem::Kind::Header});
    return table;
  }
  table.header = std::move(rows.front());
  rows.erase(rows.begin());
  table.rows = std::move(rows);
  check_header(table);
  check_widths(table);
  std::stable_sort(
      table.problems.begin(), table.problems.end(), [](const Problem& a, const Problem& b) {
        return std::pair(a.place.line, a.place.column) < std::pair(b.place.line, b.place.column);
      });
  return table;
}

std::string quoted(std::string_view text, char separator) {
  const bool needs = text.find_first_of("\"\r\n") != std::string_view::npos ||
                     text.find(separator) != std::string_view::npos || trimmed(text) != text;
  if (!needs) return std::string(text);
  std::string result = "\"";
  for (const char c : text) {
    if (c == '"') result += '"';
    result += c;
  }
  return result + '"';
}

} // namespace leafwright::csv
