#include "read/roster/roster.h"

#include "language/lists.h"
#include "measure/letters.h"
#include "model/run.h"
#include "read/csv/csv.h"
#include "read/order_cells.h"
#include "read/roster/internal/headings.h"
#include "read/roster/internal/unknown_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <optional>
#include <string>
#include <utility>

namespace leafwright {

namespace {

constexpr std::size_t most_findings = 300;
constexpr std::size_t most_cell = 2000; // characters of one cell that are kept
constexpr std::size_t most_lines_named = 12;

using reading::OrderCell;
using reading::OrderCells;

struct Text {
  std::string text;
  bool broken = false;    // bytes that are no UTF-8 were replaced
  char32_t no_letter = 0; // the first code point replaced because it is no character
};

// Valid UTF-8 of at most `most_cell` characters.
Text clean_text(std::string_view text) {
  Text clean;
  detail::TextCursor cursor(text);
  for (std::size_t count = 0; !cursor.done() && count < most_cell; ++count) {
    const std::size_t from = cursor.at();
    const char32_t c = cursor.peek();
    const bool broken = c == detail::not_a_letter, no_letter = detail::is_noncharacter(c);
    cursor.advance();
    clean.broken = clean.broken || broken;
    if (no_letter && clean.no_letter == 0) clean.no_letter = c;
    clean.text +=
        broken || no_letter ? std::string_view("\uFFFD") : text.substr(from, cursor.at() - from);
  }
  return clean;
}

class Reader {
 public:
  Reader(std::string_view csv, const Project& project, std::int32_t file)
      : project_(project), names_(project), file_(file), table_(csv::read(csv)) {}

  Roster read() {
    // What spreadsheets write below the last row.
    std::erase_if(table_.rows, [](const csv::Row& row) {
      return std::ranges::all_of(
          row.cells, [](const csv::Cell& cell) { return csv::trimmed(cell.text).empty(); });
    });
    const bool usable = !table_.header.cells.empty();
    roster_.rows = table_.rows.size();
    tell_problems();
    if (usable && find_columns()) {
      for (std::size_t i = 0; i < table_.rows.size(); ++i) read_row(i);
      unknown_.tell(roster_.findings, project_, headings_);
      sum_up();
    }
    return std::move(roster_);
  }

 private:
  Place place(csv::CellPlace at, std::size_t length) const {
    return {file_, at.line, at.column, static_cast<std::int32_t>(std::max<std::size_t>(length, 1))};
  }
  Place place(const csv::Cell& cell) const {
    std::size_t characters = 0;
    for (const char c : cell.text) {
      if (c == '\n' || c == '\r') break;
      if (detail::begins_character(c)) ++characters;
    }
    return place(cell.place, characters);
  }

  void tell(Finding finding) {
    if (roster_.findings.size() < most_findings)
      roster_.findings.push_back(std::move(finding));
    else
      ++untold_;
  }

  // Rows where it is in doubt which cell is which are left out: a name in the column of the tier
  // would send somebody the wrong parcel.
  void tell_problems() {
    for (const csv::Problem& problem : table_.problems) {
      const bool header = problem.kind == csv::Problem::Kind::Header;
      if (problem.kind == csv::Problem::Kind::Quote) doubts_.push_back(problem.place.line);
      // A missing last cell is nothing that a spreadsheet would show.
      if (problem.kind == csv::Problem::Kind::Width) continue;
      const bool fatal = header && table_.header.cells.empty();
      tell({fatal ? Severity::Error : Severity::Warning,
            "roster-table",
            place(problem.place, 1),
            problem.found.empty() ? "nothing" : problem.found,
            problem.expected,
            problem.fix,
            {}});
    }
  }

  bool in_doubt(std::size_t index) const {
    const auto first =
        std::lower_bound(doubts_.begin(), doubts_.end(), table_.rows[index].place.line);
    if (first == doubts_.end()) return false;
    return index + 1 >= table_.rows.size() || *first < table_.rows[index + 1].place.line;
  }

  bool find_columns() {
    detail::Headings headings = detail::headings_of(table_, project_, file_);
    columns_ = std::move(headings.columns);
    const bool usable = !has_errors(headings.findings);
    for (Finding& one : headings.findings) roster_.findings.push_back(std::move(one));
    for (std::size_t i = 0; i < columns_.size(); ++i)
      if (columns_[i]) headings_.emplace(columns_[i]->field, heading_of(i));
    return usable;
  }
  std::string heading_of(std::size_t column) const {
    return clean_text(csv::trimmed(table_.header.cells[column].text)).text;
  }

  OrderCell take(const csv::Row& row, std::size_t column, bool& broken) {
    const csv::Cell* cell = csv::Table::cell(row, column);
    if (!cell) return OrderCell{{}, place(row.place, 1)};
    Text clean = clean_text(cell->text);
    broken = broken || clean.broken;
    if (clean.no_letter != 0)
      tell({Severity::Warning,
            "roster-encoding",
            place(*cell),
            fmt::format("U+{:04X}, which is no character", static_cast<unsigned>(clean.no_letter)),
            "the letters of a name or an address",
            "write the letter that was meant; it is shown as \uFFFD",
            {}});
    return OrderCell{std::move(clean.text), place(*cell)};
  }

  OrderCells cells_of(const csv::Row& row, bool& broken) {
    OrderCells cells;
    cells.place = place(row.place, 1);
    for (OrderCell& cell : cells.cells) cell.place = cells.place;
    for (std::size_t i = 0; i < columns_.size(); ++i) {
      if (!columns_[i] || columns_[i]->field == OrderField::Kept) continue;
      const detail::ColumnMeaning& column = *columns_[i];
      OrderCell cell = take(row, i, broken);
      if (column.mapped) cell.days = column.mapped->days;
      if (column.tier >= 0) {
        cells.of_tiers.push_back({column.tier, std::move(cell)});
        continue;
      }
      OrderCell& known = cells[column.field];
      if (csv::trimmed(known.text).empty())
        known = std::move(cell);
      else if (!csv::trimmed(cell.text).empty())
        known.text += std::string(detail::joint_of(column.field)) + cell.text;
    }
    OrderCell& name = cells[OrderField::Name];
    if (csv::trimmed(name.text).empty() && !cells[OrderField::Number].text.empty())
      name = cells[OrderField::Number];
    return cells;
  }

  void read_row(std::size_t index) {
    const csv::Row& row = table_.rows[index];
    bool broken = false;
    const OrderCells cells = cells_of(row, broken);
    if (is_sum(index, cells)) return;
    if (in_doubt(index) || too_wide(row)) {
      leave_out(row);
      return;
    }
    reading::OrderReading reading = reading::read_order(cells, project_, names_);
    if (!reading.orders.empty() && is_again(row, reading.orders.front())) return;
    unknown_.take(reading, roster_.findings.size());
    for (Finding& finding : reading.findings) {
      finding.severity = Severity::Warning;
      tell(std::move(finding));
    }
    if (broken)
      tell({Severity::Warning,
            "roster-encoding",
            cells.place,
            "letters that are not UTF-8",
            "a table saved as UTF-8",
            "save it again as CSV UTF-8; they are shown as \uFFFD",
            {}});
    if (reading.orders.empty()) {
      leave_out(row);
      return;
    }
    for (Order& order : reading.orders) {
      const bool counted = counts(order.status);
      if (counted) keep_others(row, order);
      (counted ? roster_.orders : roster_.set_aside).push_back(std::move(order));
    }
  }

  // Tables from a spreadsheet end with their sum, which is nobody's order.
  bool is_sum(std::size_t index, const OrderCells& cells) {
    constexpr std::array<std::string_view, 5> sums = {"total", "totals", "grand total", "sum",
                                                      "all together"};
    const bool says = std::ranges::any_of(table_.rows[index].cells, [&](const csv::Cell& cell) {
      std::string word = reading::folded(cell.text);
      if (word.ends_with(':')) word.pop_back();
      return std::ranges::find(sums, word) != sums.end();
    });
    const bool last = index + 1 == table_.rows.size();
    if (!last || !says || names_.tier(cells[OrderField::Tier].text)) return false;
    --roster_.rows;
    int kits = 0;
    for (const Order& order : roster_.orders) kits += order.quantity;
    tell({Severity::Note,
          "roster-sum",
          cells.place,
          "a row of sums at the end of the roster",
          "orders",
          fmt::format("it is not counted; the rows above it come to {} kits", kits),
          {}});
    return true;
  }

  // An export that was put below an older one.
  bool is_again(const csv::Row& row, const Order& order) {
    if (order.id.empty()) return false;
    std::string content;
    for (const csv::Cell& cell : row.cells) content += cell.text + '\x1F';
    const auto [first, fresh] =
        rows_by_id_.try_emplace(order.id, std::pair(row.place.line, content));
    if (fresh) return false;
    const auto& [line, before] = first->second;
    const bool same = before == content;
    --roster_.rows;
    tell({same ? Severity::Note : Severity::Warning,
          "order-again",
          order.place,
          fmt::format("a row of {} with the id of line {}{}", order.name, line,
                      same ? "" : " that says something else"),
          "each row of an export once",
          same ? "it is counted once"
               : "the first one counts; take out the one that does not hold any more",
          {}});
    return true;
  }

  // More cells than columns, and something in them: the cells before may stand one off.
  bool too_wide(const csv::Row& row) {
    for (std::size_t k = table_.header.cells.size(); k < row.cells.size(); ++k) {
      if (csv::trimmed(row.cells[k].text).empty()) continue;
      tell({Severity::Warning,
            "roster-table",
            place(row.cells[k]),
            fmt::format("{} cells", row.cells.size()),
            fmt::format("{} cells, as the first line has", table_.header.cells.size()),
            "quote a cell that holds the separator",
            {}});
      return true;
    }
    return false;
  }

  void keep_others(const csv::Row& row, Order& order) const {
    const auto keep = [&](std::size_t column, std::string name) {
      const csv::Cell* cell = csv::Table::cell(row, column);
      if (!cell || csv::trimmed(cell->text).empty()) return;
      std::string text = clean_text(csv::trimmed(cell->text)).text;
      for (std::string* one : {&name, &text})
        for (char& c : *one)
          if (static_cast<unsigned char>(c) < 0x20) c = ' ';
      order.others.push_back({std::move(name), std::move(text)});
    };
    for (std::size_t column = 0; column < columns_.size(); ++column) {
      const OrderField field = columns_[column] ? columns_[column]->field : OrderField::Kept;
      const bool number = field == OrderField::Number && columns_[column]->mapped;
      if (field == OrderField::Kept || field == OrderField::Number || detail::is_bookkeeping(field))
        keep(column, number ? std::string(number_columns.front()) : heading_of(column));
    }
  }

  void leave_out(const csv::Row& row) { roster_.left_out.push_back(row.place.line); }

  void sum_up() {
    if (untold_ > 0)
      roster_.findings.push_back({Severity::Warning,
                                  "roster-more",
                                  {file_, 0, 0, 0},
                                  fmt::format("{} more like these", untold_),
                                  "a clean roster",
                                  "mend those above, then read it again",
                                  {}});
    if (roster_.left_out.empty()) return;
    std::string lines;
    const std::size_t named = std::min(roster_.left_out.size(), most_lines_named);
    for (std::size_t i = 0; i < named; ++i)
      lines += fmt::format("{}{}", i == 0 ? "" : ", ", roster_.left_out[i]);
    if (named < roster_.left_out.size()) lines += " …";
    const bool one = roster_.left_out.size() == 1;
    roster_.findings.push_back(
        {Severity::Warning,
         "roster-left-out",
         {file_, 0, 0, 0},
         fmt::format("{} of {} rows NOT counted: line{} {}", roster_.left_out.size(), roster_.rows,
                     one ? "" : "s", lines),
         "every row an order",
         one ? "mend it: this buyer gets no parcel" : "mend them: these buyers get no parcel",
         {}});
  }

  const Project& project_;
  const reading::OrderNames names_;
  std::int32_t file_;
  csv::Table table_;
  std::vector<std::optional<detail::ColumnMeaning>> columns_;     // by column of the table
  std::map<OrderField, std::string> headings_;                    // the first of each
  std::map<std::string, std::pair<int, std::string>> rows_by_id_; // line and content
  detail::UnknownWords unknown_;
  std::vector<int> doubts_; // lines where it is unclear how cells end, ascending
  std::size_t untold_ = 0;
  Roster roster_;
};

} // namespace

std::vector<std::vector<std::string_view>> roster_columns() {
  std::vector<std::vector<std::string_view>> columns;
  for (const detail::FieldWords& one : detail::field_words()) {
    std::vector<std::string_view>& names = columns.emplace_back();
    for (const std::string_view word : one.words)
      if (!word.empty()) names.push_back(word);
  }
  return columns;
}

Roster read_roster(std::string_view csv, const Project& project, std::int32_t file) {
  return Reader(csv, project, file).read();
}

} // namespace leafwright
