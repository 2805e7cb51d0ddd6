#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace leafwright {

// Where something stands in a file. Lines and columns count from 1; the column counts characters
// (Unicode scalar values). `file` is an index into Project::files or the reader's list; a line of 0
// means "the file as a whole" and a file of -1 "no file".
struct Place {
  std::int32_t file = -1;
  std::int32_t line = 0;
  std::int32_t column = 0;
  std::int32_t length = 0; // characters to underline, at least 1 when known
  friend constexpr bool operator==(const Place&, const Place&) = default;
};

enum class Severity { Note, Warning, Error };

// One problem, in three answers: what was found, what is expected, how to mend it. `code` is short,
// ours and stable: "fit-reveal", "read-unknown-name". Printed by app as
// file:line:column: severity: found; expected; mend [code].
struct Finding {
  Severity severity = Severity::Error;
  std::string code;
  Place place;
  std::string found;
  std::string expected;
  std::string fix;
  struct Trace { // a chain that explains it: "mat.width needs base.width", with its own place
    Place place;
    std::string text;
  };
  std::vector<Trace> trace;
  // The same as `fix` where other characters in the file would do it: what to write and where. Only
  // what follows from the project alone; where the maker has a choice, there is none.
  struct Mend {
    Place place;           // of the element; of the very characters when there is no attribute
    std::string attribute; // that gets the value; empty: the characters at `place`
    std::string value;
  };
  std::optional<Mend> mend{};
};

using Findings = std::vector<Finding>;

inline bool has_errors(const Findings& findings) {
  for (const Finding& finding : findings)
    if (finding.severity == Severity::Error) return true;
  return false;
}

} // namespace leafwright
