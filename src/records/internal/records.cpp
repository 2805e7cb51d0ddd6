#include "records/records.h"

#include "measure/letters.h"
#include "read/csv/csv.h"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>

namespace leafwright::records {

std::string millimetre_text(Length length) {
  const bool negative = length.nm < 0;
  const std::int64_t nm = negative ? -length.nm : length.nm;
  std::string out = std::to_string(nm / nm_per_mm);
  if (nm % nm_per_mm != 0) {
    out += fmt::format(".{:06d}", nm % nm_per_mm);
    while (out.back() == '0') out.pop_back();
  }
  return negative ? "-" + out : out;
}

std::string amount_text(const Money& money) {
  const bool negative = money.minor < 0;
  std::int64_t unit = 1;
  for (int i = 0; i < money.currency.exponent; ++i) unit *= 10;
  const std::int64_t minor = negative ? -money.minor : money.minor;
  std::string out = fmt::format("{}{}", negative ? "-" : "", minor / unit);
  if (money.currency.exponent > 0)
    out += fmt::format(".{:0{}d}", minor % unit, money.currency.exponent);
  return out;
}

void Json::before_value() {
  if (after_key_) {
    after_key_ = false;
    return;
  }
  if (first_.empty()) return;
  if (!first_.back()) out_ += ',';
  first_.back() = false;
  next_line();
}

void Json::next_line() {
  if (layout_ == Layout::OneLine) return;
  out_ += '\n';
  out_.append(first_.size() * 2, ' ');
}

Json& Json::open(char bracket) {
  before_value();
  out_ += bracket;
  first_.push_back(true);
  return *this;
}

Json& Json::close(char bracket) {
  const bool empty = first_.back();
  first_.pop_back();
  if (!empty) next_line();
  out_ += bracket;
  return *this;
}

Json& Json::key(std::string_view name) {
  text(name);
  out_ += layout_ == Layout::OneLine ? ":" : ": ";
  after_key_ = true;
  return *this;
}

Json& Json::text(std::string_view value) {
  before_value();
  out_ += '"';
  detail::TextCursor cursor(value);
  while (!cursor.done()) {
    const char32_t c = cursor.peek();
    const std::size_t from = cursor.at();
    cursor.advance();
    if (c == U'"' || c == U'\\')
      out_ += {'\\', static_cast<char>(c)};
    else if (c == detail::not_a_letter)
      out_ += "\uFFFD";
    else if (c < 0x20 || c == 0x7F)
      out_ += fmt::format("\\u{:04x}", static_cast<unsigned>(c));
    else
      out_ += value.substr(from, cursor.at() - from);
  }
  out_ += '"';
  return *this;
}

Json& Json::number(std::int64_t value) { return decimal(std::to_string(value)); }

Json& Json::decimal(std::string_view value) {
  before_value();
  out_ += value;
  return *this;
}

Json& Json::truth(bool value) { return decimal(value ? "true" : "false"); }
Json& Json::nothing() { return decimal("null"); }

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
  return csv::quoted(formula_like(cell) ? "'" + cell : cell);
}

} // namespace

std::string csv_row(const std::vector<std::string>& cells) {
  std::string row;
  for (std::size_t i = 0; i < cells.size(); ++i) row += (i > 0 ? "," : "") + csv_cell(cells[i]);
  return row + "\r\n";
}

} // namespace leafwright::records
