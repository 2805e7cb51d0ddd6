#pragma once

#include <cstddef>
#include <string>
#include <utility>
#include <variant>

namespace leafwright {

// Why a piece of text is not a measure. `at` and `length` are bytes within the text that was
// parsed, so that a caret can stand under the very character.
struct ParseError {
  std::size_t at = 0;
  std::size_t length = 0;
  std::string found;    // "1/0", "nothing"
  std::string expected; // "a length such as 4 1/4 in or 108 mm"
  std::string fix;      // "a fraction's lower number must be 1 or more"
};

// Either a value or the reason why there is none.
template <class T>
class Parsed {
 public:
  Parsed(T value) : content_(std::move(value)) {}
  Parsed(ParseError why) : content_(std::move(why)) {}

  bool ok() const { return std::holds_alternative<T>(content_); }
  explicit operator bool() const { return ok(); }
  const T& value() const& { return std::get<T>(content_); }
  T value() && { return std::get<T>(std::move(content_)); }
  T& value() & { return std::get<T>(content_); } // to move it out
  const T& operator*() const { return value(); }
  const ParseError& parse_error() const { return std::get<ParseError>(content_); }

 private:
  std::variant<T, ParseError> content_;
};

} // namespace leafwright
