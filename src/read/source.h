#pragma once

#include "model/finding.h"

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace leafwright {

// One text that findings point into: a file as it was read, or an option of the command line. Lines
// end at LF, CR LF or CR alone; a byte order mark at the beginning takes no column.
class SourceText {
 public:
  SourceText() = default;
  SourceText(std::string name, std::string text);

  const std::string& name() const { return name_; } // as it is printed before the line number
  std::string_view text() const { return text_; }
  // Bytes from..from+length of the text as a place, with `file` as its file index. What runs over a
  // line end is underlined up to there.
  Place place(std::int32_t file, std::size_t from, std::size_t length) const;
  // Line `line` (from 1) without its line end; empty when there is none.
  std::string_view line(std::int32_t number) const;
  // Bytes in front of character `column` (from 1) of a line; its length when the line is shorter.
  std::size_t bytes_before(std::int32_t line, std::int32_t column) const;
  std::size_t line_count() const { return starts_.size(); }

 private:
  std::string name_;
  std::string text_;
  std::size_t characters(std::size_t from, std::size_t to) const;

  std::vector<std::size_t> starts_; // byte offset of each line
  // Characters in front of every 256th byte: a file may be one line, and a place in it is asked
  // for each of its elements.
  std::vector<std::size_t> characters_;
};

// The texts of one reading; Place::file is an index into it.
using Sources = std::vector<SourceText>;

// Bytes of a byte order mark in front (0 or 3).
std::size_t byte_order_mark(std::string_view text);

} // namespace leafwright
