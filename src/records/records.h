#pragma once

#include "measure/amounts/amounts.h"
#include "measure/length.h"

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

// Numbers as a record holds them: a point for decimals, no sign of a unit.

namespace leafwright::records {

// Exact: "107.95". At most six decimals.
std::string millimetre_text(Length length);

// "-12.50": with the decimals of its currency.
std::string amount_text(const Money& money);

// A JSON text (RFC 8259) in the making; the caller opens and closes in pairs.
class Json {
 public:
  enum class Layout { Indented, OneLine };
  explicit Json(Layout layout = Layout::Indented) : layout_(layout) {}

  Json& open_object() { return open('{'); }
  Json& close_object() { return close('}'); }
  Json& open_array() { return open('['); }
  Json& close_array() { return close(']'); }
  Json& key(std::string_view name);
  // Controls are escaped; bytes that are no UTF-8 become U+FFFD, since JSON knows no others.
  Json& text(std::string_view value);
  Json& number(std::int64_t value);
  Json& decimal(std::string_view value); // a number already printed
  Json& truth(bool value);
  Json& nothing();
  std::string take() { return std::move(out_) + "\n"; }

 private:
  Json& open(char bracket);
  Json& close(char bracket);
  void before_value();
  void next_line();

  Layout layout_;
  std::string out_;
  std::vector<bool> first_{};
  bool after_key_ = false;
};

// One row with its line end (CRLF, RFC 4180 2.1). Cells are quoted where they must be; a cell that
// begins like a formula (= + - @ tab return) and is no number gets an apostrophe in front.
std::string csv_row(const std::vector<std::string>& cells);

} // namespace leafwright::records
