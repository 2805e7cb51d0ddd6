#pragma once

#include "measure/length.h"

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

// Writing CSV and JSON.

namespace leafwright::guide {

// One row with its line end (CRLF, RFC 4180 2.1). Cells are quoted where they must be; a cell that
// begins like a formula (= + - @ tab return) and is no number gets an apostrophe in front.
std::string csv_row(const std::vector<std::string>& cells);

// A JSON text in the making; the caller opens and closes in pairs.
class Json {
 public:
  Json& open_object() { return open('{'); }
  Json& close_object() { return close('}'); }
  Json& open_array() { return open('['); }
  Json& close_array() { return close(']'); }
  Json& key(std::string_view name);
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

  std::string out_;
  std::vector<bool> first_{};
  bool after_key_ = false;
};

// Exact: "107.95". At most six decimals.
std::string millimetre_text(Length length);

} // namespace leafwright::guide
