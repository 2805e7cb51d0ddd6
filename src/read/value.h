#pragma once

#include "read/source.h"

#include <string>
#include <string_view>
#include <vector>

namespace leafwright::reading {

// The text of an attribute or an element after entities and line ends were resolved, which still
// knows where each byte of it was written.
class Value {
 public:
  Value() = default;
  // Decodes bytes from..from+length of a source. In attributes a line end or a tab becomes a blank
  // (XML 1.0, 3.3.3); in prose a run of blanks becomes one, and none is kept at either end.
  enum class As { Attribute, Prose, Verbatim };
  Value(const SourceText& source, std::int32_t file, std::size_t from, std::size_t length, As as);

  const std::string& text() const { return text_; }
  std::string_view view() const { return text_; }
  bool empty() const { return text_.empty(); }
  // Where bytes at..at+length of text() were written; the default is the whole.
  Place place(std::size_t at, std::size_t length) const;
  Place place() const;
  // Appends another piece of prose of the same source (text interrupted by a comment or an
  // element).
  void append(const Value& more);

 private:
  struct Joint { // from here on, text bytes and source bytes run in step
    std::size_t text_at, source_at;
  };
  std::size_t source_at(std::size_t at) const;
  void push(std::string_view bytes, std::size_t source_at);

  std::string text_;
  std::vector<Joint> joints_;
  const SourceText* source_ = nullptr;
  std::int32_t file_ = -1;
  std::size_t from_ = 0, length_ = 0; // in the source
};

// What `&name;` stands for, name without its & and ; ("lt", "#xBC"); empty when there is no such.
std::string entity_text(std::string_view name);

} // namespace leafwright::reading
