#pragma once

#include "app/arguments.h"
#include "app/documents.h"

#include <string>
#include <vector>

namespace leafwright::app {

// Documents made in memory from one project, for verbs that make them again and again.
struct Making {
  Prepared prepared;
  std::vector<MadeFile> files;     // empty when errors stop the work
  Findings findings;               // everything that was found, of all phases
  std::vector<std::string> inputs; // files that were read or would have been: paths
  bool stopped = false;
};

// `kinds` are names of documents; "all" stands for every one.
bool known_documents(const std::vector<std::string>& kinds, std::string& unknown);
Making make_named(const std::string& path, const std::vector<std::string>& kinds,
                  const Workshop& workshop, const Arguments& arguments);

// The brake that the arguments say.
cut::Effort effort_of(const Arguments& arguments);

// Make syntax (`target: inputs`, blanks and # escaped, $ doubled), with an empty rule for each
// input, so that one which is deleted is no error.
std::string depfile_text(const std::vector<std::string>& targets,
                         const std::vector<std::string>& inputs);

// Everything that a project and its documents are made from, as far as it could be read: project,
// roster, pictures, templates. Sorted, no path twice.
std::vector<std::string> inputs_of(const Prepared& prepared, const Workshop& workshop);

} // namespace leafwright::app
