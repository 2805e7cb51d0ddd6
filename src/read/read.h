#pragma once

#include "model/project.h"

#include <cstddef>
#include <cstdint>
#include <functional>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

// A project file becomes a Project, or findings that say how to fix it; usually both. All problems
// are found in one pass. Nothing here throws, prints or writes; lengths are exact.
//
//   const Reading reading = read_project_file("spring/project.xml");
//   for (const Finding& one : reading.findings) error << finding_text(one, reading.sources);
//   if (reading.ok()) make(reading.project);

namespace leafwright {

// Why a file could not be had, in words: "there is no such file", "larger than 32 MB".
struct FileFault {
  enum class Kind { Missing, NotAFile, NotAllowed, TooLarge, Broken };
  Kind kind = Kind::Missing;
  std::string words;
};
using FileBytes = std::variant<std::string, FileFault>;

// The outside world as the reader sees it; tests give it a folder in memory.
struct FileAccess {
  // The whole content of a regular file, or why not; never more than `most` bytes.
  std::function<FileBytes(const std::string& path, std::size_t most)> read;
  // The path with every symbolic link resolved; empty when it does not exist.
  std::function<std::string(const std::string& path)> real_path;
};

FileAccess disk_access();

// Why a name written in a project may not be opened, or nothing: absolute names, `..` that climbs
// out of the folder, backslashes and drive letters are refused by their wording alone.
std::string name_fault(std::string_view name);
// Whether `real` lies in the folder `real_folder`; both resolved.
bool lies_inside(std::string_view real, std::string_view real_folder);

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

struct ReadOptions {
  // `mat.width=4 in`, `trees/mat.width=4 in`, `trees.minutes=40`, `project.paper=a4`: replaces an
  // attribute before anything is worked out. Without a card, every thing of that id is meant.
  std::vector<std::string> overrides;
  FileAccess files = disk_access();
  std::size_t most_bytes = 32'000'000;         // of the project file
  std::size_t most_picture_bytes = 64'000'000; // of one picture
  std::size_t most_depth = 64;                 // of nested elements
  std::size_t most_findings = 500;
};

struct Reading {
  Project project; // as far as it could be understood; complete when ok()
  Findings findings;
  Sources sources; // for printing findings; the project file first, then the overrides
  bool ok() const { return !has_errors(findings); }
};

// `path` names the file in findings, and its folder is where relative names start.
Reading read_project(std::string_view file_bytes, const std::string& path,
                     const ReadOptions& options = {});
// Reads the file first, by options.files.
Reading read_project_file(const std::string& path, const ReadOptions& options = {});

// Findings as text for people and as JSON for programs, both from the same value.

struct ReportStyle {
  int width = 100;     // of the source line in columns; longer lines are shown in part
  bool colour = false; // SGR codes of ECMA-48 around severity and caret
};

inline constexpr int finding_schema = 1; // of the JSON form

// file:line:column: severity: found; expected; mend [code]
//   the source line
//          ^^^^^
//   file:line:column: what the chain says
// Ends with a line end. Without a place the first part is left away; with a line of 0 it is the
// file alone. Tabs become blanks, broken bytes and control characters U+FFFD, so that nothing in a
// file can steer a terminal; wide characters count two columns.
std::string finding_text(const Finding& finding, const Sources& sources,
                         const ReportStyle& style = {});
// One JSON object and a line end: schema, severity, code, file, line, column, length, found,
// expected, mend, trace [{file, line, column, text}]. `file` is null where there is none.
std::string finding_json(const Finding& finding, const Sources& sources);

std::string_view severity_word(Severity severity); // "error", "warning", "note"
// "2 errors and 1 warning"; "no errors" when there are none.
std::string findings_summary(const Findings& findings);

} // namespace leafwright

namespace leafwright::reading {

// Columns of one character on a terminal: 0 for combining marks and other invisible ones, 2 for
// East Asian wide and fullwidth ones and emoji, else 1. Ranges after UAX #11 (Unicode 15) and
// general category Mn, in blocks rather than single points.
int columns_of(char32_t c);

// The candidate that `word` was most likely meant to be, or nothing when none is near: at most a
// third of its letters inserted, deleted, replaced or swapped with a neighbour (optimal string
// alignment distance). Case, hyphens and underscores hardly count. The first of equals wins.
std::string_view nearest_name(std::string_view word, std::span<const std::string_view> candidates);

// "did you mean mat?" or, with nothing near, the first few candidates: "one of base, mat, scene".
std::string did_you_mean(std::string_view word, std::span<const std::string_view> candidates);

} // namespace leafwright::reading
