#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

// Tables of text as RFC 4180 describes them, read without giving up at the first fault.
//
// Beyond the RFC: a UTF-8 byte order mark is skipped, lines may end in CR LF, LF or CR, the cells
// may be parted by comma, semicolon or tab (whichever the first line uses most), and blank lines
// and a first line `sep=;` are skipped. The first line names the columns, in any order.

namespace leafwright::csv {

// A place in the text, counted from 1; columns in characters (code points), not bytes.
struct CellPlace {
  int line = 1;
  int column = 1;
  friend bool operator==(const CellPlace&, const CellPlace&) = default;
};

struct Cell {
  std::string text; // quotes removed, doubled quotes single; blanks kept
  CellPlace place;  // of its first character (or opening quote)
};

struct Row {
  CellPlace place;
  std::vector<Cell> cells;
};

struct Problem {
  CellPlace place;
  std::string found;    // as it stands in the text, shortened
  std::string expected; // what should stand there
  std::string fix;      // what to do about it
  enum class Kind {
    Text,   // the cells stand as they are meant all the same
    Header, // of the first line, or of the table as a whole
    Width,  // more or fewer cells than the first line has
    Quote,  // where cells begin and end is in doubt
  };
  Kind kind = Kind::Text;
};

struct Table {
  char separator = ',';
  Row header;
  std::vector<Row> rows;         // without the header and blank lines
  std::vector<Problem> problems; // in the order of their places

  // Number of the column with this name; case (of ASCII letters) and blanks around do not matter.
  std::optional<std::size_t> column(std::string_view name) const;

  // The cell of a row, or nothing where the row is too short.
  static const Cell* cell(const Row& row, std::size_t column);
};

// Reads the whole text. Every row that could be made out is returned even when problems are
// reported.
Table read(std::string_view text);

// The text as one cell, quoted when it needs to be.
std::string quoted(std::string_view text, char separator = ',');

// Without blanks at either end.
std::string_view trimmed(std::string_view text);

} // namespace leafwright::csv
