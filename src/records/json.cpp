#include "records/json.h"

#include "measure/text_cursor.h"

#include <fmt/format.h>

namespace leafwright::records {

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

} // namespace leafwright::records
