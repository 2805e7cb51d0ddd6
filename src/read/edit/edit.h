#pragma once

#include "model/finding.h"
#include "read/read.h"

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

// Changing a project file without touching what is not meant: comments, order, indentation, quotes
// and line ends stay byte for byte.

namespace leafwright::edit {

// Bytes at..at+length of the old text become `bytes`.
struct Edit {
  std::size_t at = 0, length = 0;
  std::string bytes;
};
// Edits are in order and do not overlap.
std::string applied(std::string_view text, const std::vector<Edit>& edits);

// One thing that a person would say was changed in the file.
struct Written {
  std::string where;         // "card trees / panel scene: size"
  std::string before, after; // as written, entities and all; empty = it was not there, is gone
  std::size_t at = 0;        // byte of the old text
};

struct Editing {
  std::vector<Edit> edits;
  std::vector<Written> written;
  Findings findings; // errors: nothing may be written
  Sources sources;   // that the findings point into
  bool ok() const { return !has_errors(findings); }
};

// What `--set ID.ATTRIBUTE=VALUE` overrides mean for the file itself. An attribute that is there
// gets another value between its own quotes; one that is not is added behind the last. A width or
// height of a thing that says `size="4 x 5"` changes that half of it alone. What cannot be said in
// place is a finding.
Editing set_values(std::string_view file_bytes, const std::string& path,
                   const std::vector<std::string>& overrides, const ReadOptions& options = {});

// Edits that turn file `a` into one that says what `b` says. What only sets out the page (comments,
// blanks) is kept from `a`. Both must be well-formed, else everything is one edit.
Editing patch(std::string_view a, std::string_view b);

} // namespace leafwright::edit
