#include "read/roster/roster.h"

#include "language/lists.h"
#include "measure/letters.h"
#include "model/run.h"
#include "read/csv/csv.h"
#include "read/order_cells.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>
#include <string>
#include <utility>

namespace leafwright {

namespace {

constexpr std::size_t most_findings = 300;
constexpr std::size_t most_cell = 2000; // characters of one cell that are kept
constexpr std::size_t most_lines_named = 12;

struct Meaning {
  reading::OrderCell reading::OrderCells::*cell;
  std::array<std::string_view, 7> words; // the first is ours; empty ones end the list
};
using reading::OrderCells;
constexpr std::array meanings = {
    Meaning{&OrderCells::name,
            {"name", "buyer", "ordered by", "customer", "full name", "your name"}},
    Meaning{&OrderCells::tier, {"tier", "kit", "option", "kit option", "your kit", "your option"}},
    Meaning{&OrderCells::quantity,
            {"quantity", "qty", "kits", "how many", "number of kits", "how many kits"}},
    Meaning{&OrderCells::owned,
            {"owned", "owns", "i own", "owned items", "already owned", "what i own"}},
    Meaning{&OrderCells::swaps, {"swaps", "swap", "instead", "swapped for", "swap for"}},
    Meaning{&OrderCells::region, {"region", "shipping region", "country", "shipping"}},
    Meaning{&OrderCells::note,
            {"note", "notes", "remark", "remarks", "comment", "comments", "message"}},
    Meaning{&OrderCells::date,
            {"date", "ordered", "order date", "timestamp", "ordered on", "submitted"}},
    Meaning{
        &OrderCells::address,
        {"address", "postal address", "post to", "send to", "mailing address", "shipping address"}},
    Meaning{&OrderCells::status, {"status", "order status", "payment status"}},
};

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
    const bool usable = !table_.header.cells.empty();
    roster_.rows = table_.rows.size();
    tell_problems();
    if (usable && find_columns()) {
      for (std::size_t i = 0; i < table_.rows.size(); ++i) read_row(i);
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
    columns_.assign(meanings.size(), std::nullopt);
    for (std::size_t m = 0; m < meanings.size(); ++m)
      for (const std::string_view word : meanings.at(m).words) {
        if (word.empty() || columns_[m]) continue;
        columns_[m] = table_.column(word);
      }
    for (const std::string_view word : number_columns)
      if (!number_) number_ = table_.column(word);
    if (!columns_[0]) std::swap(columns_[0], number_);
    const bool tier = columns_[1] || project_.tiers.size() == 1;
    if (columns_[0] && tier) return true;
    std::vector<std::string> found;
    for (const csv::Cell& cell : table_.header.cells)
      found.push_back(detail::shown(csv::trimmed(cell.text)));
    roster_.findings.push_back({Severity::Error,
                                "roster-columns",
                                place(table_.header.place, 1),
                                "the columns " + words::series(found),
                                columns_[0] ? "a column tier" : "a column name or number",
                                "name it in the first line",
                                {}});
    return false;
  }

  bool is_meant(std::size_t column) const {
    return number_ == column || std::any_of(columns_.begin(), columns_.end(),
                                            [&](const auto& one) { return one == column; });
  }

  void read_row(std::size_t index) {
    const csv::Row& row = table_.rows[index];
    OrderCells cells;
    cells.place = place(row.place, 1);
    bool broken = false, empty = true;
    const auto take = [&](std::size_t column) {
      const csv::Cell* cell = csv::Table::cell(row, column);
      if (!cell) return reading::OrderCell{{}, cells.place};
      Text clean = clean_text(cell->text);
      broken = broken || clean.broken;
      if (clean.no_letter != 0)
        tell(
            {Severity::Warning,
             "roster-encoding",
             place(*cell),
             fmt::format("U+{:04X}, which is no character", static_cast<unsigned>(clean.no_letter)),
             "the letters of a name or an address",
             "write the letter that was meant; it is shown as \uFFFD",
             {}});
      return reading::OrderCell{std::move(clean.text), place(*cell)};
    };
    for (const csv::Cell& cell : row.cells) empty = empty && csv::trimmed(cell.text).empty();
    if (empty) { // the empty rows that spreadsheets write below the last one
      --roster_.rows;
      return;
    }
    for (std::size_t m = 0; m < meanings.size(); ++m)
      cells.*meanings.at(m).cell =
          columns_[m] ? take(*columns_[m]) : reading::OrderCell{{}, cells.place};
    if (csv::trimmed(cells.name.text).empty() && number_) cells.name = take(*number_);
    if (in_doubt(index) || too_wide(row)) {
      leave_out(row);
      return;
    }
    reading::OrderReading reading = reading::read_order(cells, project_, names_);
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
    if (!reading.order) {
      leave_out(row);
      return;
    }
    if (!counts(reading.order->status)) {
      roster_.set_aside.push_back(std::move(*reading.order));
      return;
    }
    keep_others(row, *reading.order);
    roster_.orders.push_back(std::move(*reading.order));
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
    const auto keep = [&](std::size_t column) {
      const csv::Cell* cell = csv::Table::cell(row, column);
      if (!cell || csv::trimmed(cell->text).empty()) return;
      std::string name = clean_text(csv::trimmed(table_.header.cells[column].text)).text;
      std::string text = clean_text(csv::trimmed(cell->text)).text;
      for (std::string* one : {&name, &text})
        for (char& c : *one)
          if (static_cast<unsigned char>(c) < 0x20) c = ' ';
      order.others.push_back({std::move(name), std::move(text)});
    };
    for (std::size_t column = 0; column < table_.header.cells.size(); ++column)
      if (!is_meant(column) || number_ == column) keep(column);
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
  std::vector<std::optional<std::size_t>> columns_; // by meaning
  std::optional<std::size_t> number_;
  std::vector<int> doubts_; // lines where it is unclear how cells end, ascending
  std::size_t untold_ = 0;
  Roster roster_;
};

} // namespace

std::vector<std::vector<std::string_view>> roster_columns() {
  std::vector<std::vector<std::string_view>> columns{
      {number_columns.begin(), number_columns.end()}};
  for (const Meaning& meaning : meanings) {
    std::vector<std::string_view>& names = columns.emplace_back();
    for (const std::string_view word : meaning.words)
      if (!word.empty()) names.push_back(word);
  }
  return columns;
}

Roster read_roster(std::string_view csv, const Project& project, std::int32_t file) {
  return Reader(csv, project, file).read();
}

} // namespace leafwright
