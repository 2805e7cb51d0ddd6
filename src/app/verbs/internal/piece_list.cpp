#include "app/verbs/piece_list.h"

#include "language/words.h"
#include "read/csv/csv.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <map>
#include <utility>

namespace leafwright::app {

namespace {

constexpr std::int64_t largest_number = 1'000'000'000'000;

Finding fault(Place place, std::string found, std::string expected, std::string fix) {
  Finding finding;
  finding.code = "parts-value";
  finding.place = place;
  finding.found = std::move(found);
  finding.expected = std::move(expected);
  finding.fix = std::move(fix);
  return finding;
}

std::optional<std::int64_t> whole(std::string_view text) {
  std::int64_t value = 0;
  const auto [end, wrong] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (wrong != std::errc() || end != text.data() + text.size() || text.empty()) return std::nullopt;
  return value;
}

// "0.85" as ten-thousandths; nothing when it is no such number.
constexpr std::int64_t price_steps = 10'000;
std::optional<std::int64_t> price_of(std::string_view text) {
  const std::size_t point = text.find('.');
  const auto units = whole(text.substr(0, point));
  if (!units || *units < 0 || *units > largest_number / price_steps) return std::nullopt;
  std::int64_t price = *units * price_steps;
  if (point == std::string_view::npos) return price;
  const std::string_view decimals = text.substr(point + 1);
  if (decimals.empty() || decimals.size() > 4 ||
      !std::all_of(decimals.begin(), decimals.end(), [](char c) { return c >= '0' && c <= '9'; }))
    return std::nullopt;
  std::int64_t step = price_steps / 10;
  for (const char digit : decimals) {
    price += (digit - '0') * step;
    step /= 10;
  }
  return price;
}

struct Columns {
  std::map<std::string, std::size_t, std::less<>> at;
  bool complete = true;
};

class PartsReader {
 public:
  explicit PartsReader(const PartsOptions& options) : options_(options) {
    parts_.in_nanometres = options.measures.has_value();
    parts_.unit_name = parts_.in_nanometres ? "mm" : options.unit_name;
  }

  PartsJob read(std::string_view pieces_csv, std::string_view sheets_csv) {
    read_pieces(csv::read(pieces_csv));
    read_sheets(csv::read(sheets_csv));
    parts_.job.rules.blade = option("blade", options_.blade);
    parts_.job.rules.smallest_strip = option("smallest strip", options_.smallest_strip);
    const cut::Length trim = option("trim", options_.trim);
    parts_.job.rules.trim = {trim, trim, trim, trim};
    parts_.job.rules.stages = options_.stages;
    scale_prices();
    return std::move(parts_);
  }

 private:
  static Place place_of(csv::CellPlace place, int file) {
    return {file, place.line, place.column, 1};
  }

  template <std::size_t N>
  Columns columns(const csv::Table& table, const std::array<std::string_view, N>& known,
                  std::size_t needed, std::string_view what) {
    for (const csv::Problem& problem : table.problems) {
      Finding finding =
          fault(place_of(problem.place, file_), problem.found, problem.expected, problem.fix);
      finding.code = "parts-csv";
      parts_.findings.push_back(std::move(finding));
    }
    for (const csv::Cell& head : table.header.cells) {
      const std::string name(csv::trimmed(head.text));
      if (std::none_of(known.begin(), known.end(), [&](std::string_view one) {
            return table.column(one) == table.column(name);
          }))
        parts_.findings.push_back(fault(place_of(head.place, file_),
                                        fmt::format("a column “{}”", name),
                                        words::listed({known.begin(), known.end()}, "or"),
                                        "rename the column or leave it out"));
    }
    Columns columns;
    for (const std::string_view name : known)
      if (const auto at = table.column(name)) columns.at.emplace(name, *at);
    for (std::size_t i = 0; i < needed; ++i) {
      if (columns.at.contains(known[i])) continue;
      columns.complete = false;
      parts_.findings.push_back(
          fault({file_, 1, 1, 1}, fmt::format("no column “{}” in the list of {}", known[i], what),
                "a first row that names the columns",
                fmt::format("begin with {}", fmt::join(known, ","))));
    }
    return columns;
  }

  // Nothing where the cell is missing or blank.
  struct Value {
    std::string text;
    Place place;
  };
  std::optional<Value> cell(const Columns& columns, const csv::Row& row,
                            std::string_view name) const {
    const auto found = columns.at.find(name);
    if (found == columns.at.end()) return std::nullopt;
    const csv::Cell* cell = csv::Table::cell(row, found->second);
    if (!cell || csv::trimmed(cell->text).empty()) return std::nullopt;
    return Value{std::string(csv::trimmed(cell->text)), place_of(cell->place, file_)};
  }

  cut::Length length(const std::string& text, Place place) {
    if (options_.measures) {
      Parsed<Length> parsed = parse_length(text, *options_.measures);
      if (parsed.ok()) return parsed.value().nm;
      const ParseError& why = parsed.parse_error();
      parts_.findings.push_back(fault(place, why.found, why.expected, why.fix));
      return 0;
    }
    const auto value = whole(text);
    if (value && *value >= 0 && *value <= largest_number) return *value;
    parts_.findings.push_back(fault(place, fmt::format("“{}”", text),
                                    "a whole number in the stated unit",
                                    "say that cells are measures to write 4 1/4 in"));
    return 0;
  }

  cut::Length side(const Columns& columns, const csv::Row& row, std::string_view name) {
    const auto found = cell(columns, row, name);
    if (!found) {
      parts_.findings.push_back(fault(place_of(row.place, file_),
                                      fmt::format("a row without {}", name), "a length",
                                      "fill in the cell"));
      return 0;
    }
    const std::size_t before = parts_.findings.size();
    const cut::Length value = length(found->text, found->place);
    if (value <= 0 && parts_.findings.size() == before)
      parts_.findings.push_back(
          fault(found->place, fmt::format("“{}”", found->text), "a length above 0", "correct it"));
    return value;
  }

  std::int64_t count(const Value& cell, std::int64_t least) {
    const auto value = whole(cell.text);
    if (value && *value >= least && *value <= 1'000'000'000) return *value;
    parts_.findings.push_back(fault(cell.place, fmt::format("“{}”", cell.text),
                                    fmt::format("a whole number of at least {}", least),
                                    "correct it"));
    return least;
  }

  bool turns(const Columns& columns, const csv::Row& row) {
    const auto found = cell(columns, row, "rotation");
    if (!found || found->text == "yes" || found->text == "1") return true;
    if (found->text == "no" || found->text == "0") return false;
    parts_.findings.push_back(fault(found->place, fmt::format("“{}”", found->text), "yes or no",
                                    "no keeps a piece as it stands"));
    return true;
  }

  // A piece or a sheet with its sides; without a name it is called by its number.
  template <class T>
  T named_size(const Columns& named, const csv::Row& row, std::size_t before) {
    T one;
    const auto id = cell(named, row, "id");
    one.id = id ? id->text : std::to_string(before + 1);
    one.width = side(named, row, "width");
    one.height = side(named, row, "height");
    return one;
  }

  void read_pieces(const csv::Table& table) {
    file_ = 0;
    constexpr std::array<std::string_view, 5> known{"id", "width", "height", "copies", "rotation"};
    const Columns named = columns(table, known, 4, "pieces");
    if (!named.complete) return;
    for (const csv::Row& row : table.rows) {
      auto piece = named_size<cut::PieceType>(named, row, parts_.job.pieces.size());
      const auto copies = cell(named, row, "copies");
      piece.copies = copies ? count(*copies, 0) : 1;
      piece.may_turn = turns(named, row);
      parts_.job.pieces.push_back(std::move(piece));
    }
    if (parts_.job.pieces.empty())
      parts_.findings.push_back(
          fault({0, 1, 1, 1}, "no pieces", "at least one row below the first", "add one"));
  }

  void read_sheets(const csv::Table& table) {
    file_ = 1;
    constexpr std::array<std::string_view, 6> known{"width",    "height", "id",
                                                    "rotation", "limit",  "price"};
    const Columns named = columns(table, known, 2, "sheets");
    if (!named.complete) return;
    for (const csv::Row& row : table.rows) {
      auto sheet = named_size<cut::SheetType>(named, row, parts_.job.sheets.size());
      sheet.pieces_may_turn = turns(named, row);
      if (const auto limit = cell(named, row, "limit")) sheet.limit = count(*limit, 0);
      sheet.price = price_steps;
      if (const auto price = cell(named, row, "price")) {
        const auto value = price_of(price->text);
        if (value)
          sheet.price = *value;
        else
          parts_.findings.push_back(fault(price->place, fmt::format("“{}”", price->text),
                                          "a price such as 0.85, at most four decimals",
                                          "leave it empty where all sheets cost the same"));
      }
      parts_.job.sheets.push_back(std::move(sheet));
    }
    if (parts_.job.sheets.empty())
      parts_.findings.push_back(
          fault({1, 1, 1, 1}, "no sheets", "at least one row below the first", "add one"));
  }

  cut::Length option(std::string_view name, const std::string& text) {
    if (text.empty()) return 0;
    const std::size_t before = parts_.findings.size();
    const cut::Length value = length(text, {});
    if (parts_.findings.size() > before)
      parts_.findings.back().found = fmt::format("{}: {}", name, parts_.findings.back().found);
    return value;
  }

  // Whole prices stay whole, so that the answer speaks in sheets where every sheet costs 1.
  void scale_prices() {
    const bool whole_prices =
        std::all_of(parts_.job.sheets.begin(), parts_.job.sheets.end(),
                    [](const cut::SheetType& sheet) { return sheet.price % price_steps == 0; });
    parts_.price_scale = whole_prices ? 1 : price_steps;
    if (whole_prices)
      for (cut::SheetType& sheet : parts_.job.sheets) sheet.price /= price_steps;
  }

  const PartsOptions& options_;
  PartsJob parts_;
  int file_ = 0; // that is being read
};

} // namespace

PartsJob read_parts(std::string_view pieces_csv, std::string_view sheets_csv,
                    const PartsOptions& options) {
  return PartsReader(options).read(pieces_csv, sheets_csv);
}

} // namespace leafwright::app
