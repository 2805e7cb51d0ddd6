#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

// JSON (RFC 8259) as the page sends it, read by nlohmann-json. Answers are written by
// records::Json.

namespace leafwright::app {

struct JsonValue {
  enum class Kind { Nothing, Truth, Number, Text, List, Object };
  Kind kind = Kind::Nothing;
  bool truth = false;
  double number = 0;
  std::string text;
  std::vector<JsonValue> list;    // elements of a list, values of an object
  std::vector<std::string> names; // of the values of an object; the first of a name counts

  // A member of an object; nullptr when there is none, or this is none.
  const JsonValue* find(std::string_view name) const;
  // The member when it is of that kind, else nothing of it.
  std::string text_at(std::string_view name) const;
  bool truth_at(std::string_view name) const;
  std::optional<double> number_at(std::string_view name) const;
};

// Nothing when it is no JSON, or nested deeper than anything that is expected.
std::optional<JsonValue> parse_json(std::string_view text);

} // namespace leafwright::app
