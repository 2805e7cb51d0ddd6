#pragma once

#include "model/project.h"
#include "read/document.h"
#include "read/files.h"
#include "read/source.h"

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

// A project file becomes a Project, or findings that say what to mend; usually both. All problems
// are found in one pass. Nothing here throws, prints or writes.

namespace leafwright {

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
Reading read_project(std::string_view file_bytes, std::string path,
                     const ReadOptions& options = {});
// Reads the file first, by options.files.
Reading read_project_file(const std::string& path, const ReadOptions& options = {});

} // namespace leafwright

namespace leafwright::reading {

// What every part of the reader needs at hand.
struct Context {
  const ReadOptions& options;
  const Sources& sources;
  Journal& journal;
  Project& project;
  Unit unit = Unit::Inch; // of bare numbers
  // Points of all stamping so far. A short file can ask for endless much of it, by things that are
  // like each other: beyond the limit no more is made.
  std::size_t points = 0;
  static constexpr std::size_t most_points = 1'000'000;
};

// Applies `mat.width=4 in` and the like to the tree; the sources from `first` on are the overrides
// as they were given. What names nothing is a finding.
void apply_overrides(Context& context, Document& document, std::int32_t first);

} // namespace leafwright::reading
