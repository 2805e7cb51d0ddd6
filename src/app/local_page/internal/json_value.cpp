#include "app/local_page/internal/json_value.h"

#include "basics/utf8.h"
#include "measure/index.h"

#include <algorithm>
#include <charconv>
#include <utility>

namespace leafwright::local_page {

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

constexpr int deepest = 16;

class JsonParser {
 public:
  explicit JsonParser(std::string_view text) : text_(text) {}

  std::optional<JsonValue> run() {
    JsonValue value;
    if (!parse(value, 0)) return std::nullopt;
    blanks();
    if (at_ != text_.size()) return std::nullopt;
    return value;
  }

 private:
  void blanks() {
    while (at_ < text_.size() && std::string_view(" \t\r\n").find(text_[at_]) != text_.npos) ++at_;
  }
  bool take(std::string_view word) {
    if (!text_.substr(at_).starts_with(word)) return false;
    at_ += word.size();
    return true;
  }

  bool parse(JsonValue& into, int depth) {
    if (depth > deepest) return false;
    blanks();
    if (at_ >= text_.size()) return false;
    switch (text_[at_]) {
    case '{': return object(into, depth);
    case '[': return list(into, depth);
    case '"': into.kind = JsonValue::Kind::Text; return string(into.text);
    case 't':
    case 'f':
      into.kind = JsonValue::Kind::Truth;
      into.truth = text_[at_] == 't';
      return take(into.truth ? "true" : "false");
    case 'n': return take("null");
    default: return number(into);
    }
  }

  bool object(JsonValue& into, int depth) {
    into.kind = JsonValue::Kind::Object;
    ++at_;
    blanks();
    if (take("}")) return true;
    do {
      blanks();
      std::string name;
      if (at_ >= text_.size() || text_[at_] != '"' || !string(name)) return false;
      blanks();
      if (!take(":")) return false;
      JsonValue value;
      if (!parse(value, depth + 1)) return false;
      into.names.push_back(std::move(name));
      into.list.push_back(std::move(value));
      blanks();
    } while (take(","));
    return take("}");
  }

  bool list(JsonValue& into, int depth) {
    into.kind = JsonValue::Kind::List;
    ++at_;
    blanks();
    if (take("]")) return true;
    do {
      JsonValue value;
      if (!parse(value, depth + 1)) return false;
      into.list.push_back(std::move(value));
      blanks();
    } while (take(","));
    return take("]");
  }

  bool number(JsonValue& into) {
    into.kind = JsonValue::Kind::Number;
    const char* const from = text_.data() + at_;
    const auto [end, fault] = std::from_chars(from, text_.data() + text_.size(), into.number);
    if (fault != std::errc() || end == from) return false;
    at_ += static_cast<std::size_t>(end - from);
    return true;
  }

  std::optional<char32_t> four_digits() {
    unsigned code = 0;
    const std::string_view digits = text_.substr(at_).substr(0, 4);
    const auto [end, fault] =
        std::from_chars(digits.data(), digits.data() + digits.size(), code, 16);
    if (fault != std::errc() || digits.size() < 4 || end != digits.data() + 4) return std::nullopt;
    at_ += 4;
    return code;
  }

  // A pair of surrogates is one character; half a pair is none.
  bool escaped_code(std::string& into) {
    const auto first = four_digits();
    if (!first) return false;
    char32_t code = *first;
    if (code >= 0xD800 && code < 0xDC00) {
      if (!take("\\u")) return false;
      const auto second = four_digits();
      if (!second || *second < 0xDC00 || *second > 0xDFFF) return false;
      code = 0x10000 + ((code - 0xD800) << 10U) + (*second - 0xDC00);
    } else if (code >= 0xDC00 && code < 0xE000) {
      return false;
    }
    detail::append_character(into, code);
    return true;
  }

  bool string(std::string& into) {
    for (++at_; at_ < text_.size();) {
      const char c = text_[at_++];
      if (c == '"') return true;
      if (static_cast<unsigned char>(c) < 0x20) return false;
      if (c != '\\') {
        into += c;
        continue;
      }
      if (at_ >= text_.size()) return false;
      const char sign = text_[at_++];
      constexpr std::string_view signs = "\"\\/bfnrt", meant = "\"\\/\b\f\n\r\t";
      if (sign == 'u') {
        if (!escaped_code(into)) return false;
      } else if (const std::size_t found = signs.find(sign); found != signs.npos) {
        into += meant[found];
      } else {
        return false;
      }
    }
    return false;
  }

  std::string_view text_;
  std::size_t at_ = 0;
};

} // namespace

std::optional<JsonValue> parse_json(std::string_view text) { return JsonParser(text).run(); }

} // namespace leafwright::local_page
