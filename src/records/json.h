#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace leafwright::records {

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

} // namespace leafwright::records
