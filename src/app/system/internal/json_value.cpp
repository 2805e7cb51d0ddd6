#include "app/system/json_value.h"

#include "measure/index.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cstddef>
#include <utility>

namespace leafwright::app {

const JsonValue* JsonValue::find(std::string_view name) const {
  const auto found = std::ranges::find(names, name);
  return found == names.end() ? nullptr : &list.at(as_index(found - names.begin()));
}

std::string JsonValue::text_at(std::string_view name) const {
  const JsonValue* value = find(name);
  return value != nullptr && value->kind == Kind::Text ? value->text : std::string();
}

bool JsonValue::truth_at(std::string_view name) const {
  const JsonValue* value = find(name);
  return value != nullptr && value->kind == Kind::Truth && value->truth;
}

std::optional<double> JsonValue::number_at(std::string_view name) const {
  const JsonValue* value = find(name);
  if (value == nullptr || value->kind != Kind::Number) return std::nullopt;
  return value->number;
}

namespace {

constexpr std::size_t deepest = 16;

// What the library's parser meets, put into place. Each answers whether it may go on.
class Builder {
 public:
  explicit Builder(JsonValue& root) : root_(root) {}

  bool null() {
    put(JsonValue::Kind::Nothing);
    return true;
  }
  bool boolean(bool truth) {
    put(JsonValue::Kind::Truth).truth = truth;
    return true;
  }
  bool number_integer(std::int64_t number) { return put_number(static_cast<double>(number)); }
  bool number_unsigned(std::uint64_t number) { return put_number(static_cast<double>(number)); }
  bool number_float(double number, const std::string&) { return put_number(number); }
  bool string(std::string& text) {
    put(JsonValue::Kind::Text).text = std::move(text);
    return true;
  }
  bool binary(std::vector<std::uint8_t>&) { return false; }
  bool start_object(std::size_t) { return enter(JsonValue::Kind::Object); }
  bool key(std::string& name) {
    open_.back()->names.push_back(std::move(name));
    return true;
  }
  bool end_object() { return leave(); }
  bool start_array(std::size_t) { return enter(JsonValue::Kind::List); }
  bool end_array() { return leave(); }
  static bool parse_error(std::size_t, const std::string&, const nlohmann::json::exception&) {
    return false;
  }

 private:
  // A list that grows moves what it holds, but never what is open: that is its last.
  JsonValue& put(JsonValue::Kind kind) {
    JsonValue& value = open_.empty() ? root_ : open_.back()->list.emplace_back();
    value.kind = kind;
    return value;
  }
  bool put_number(double number) {
    put(JsonValue::Kind::Number).number = number;
    return true;
  }
  bool enter(JsonValue::Kind kind) {
    open_.push_back(&put(kind));
    return open_.size() <= deepest;
  }
  bool leave() {
    open_.pop_back();
    return true;
  }

  JsonValue& root_;
  std::vector<JsonValue*> open_;
};

} // namespace

std::optional<JsonValue> parse_json(std::string_view text) {
  JsonValue value;
  Builder builder(value);
  if (!nlohmann::json::sax_parse(text, &builder)) return std::nullopt;
  return value;
}

} // namespace leafwright::app
