#pragma once

#include "app/documents/planned_project.h"
#include "app/system/arguments.h"
#include "app/system/progress.h"
#include "output/pdf.h"
#include "page/layout.h"
#include "text/fonts.h"

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

// The documents that can be asked for by name, and how a project becomes files in memory. The same
// project and settings give the same bytes.
//
//   const RenderedProject made = render_project("project.xml", {"tutorial"}, settings, arguments);
//   for (const OutputFile& file : made.files) ... // none when errors stop the work; see
//   made.findings
//
// To add a document, add a row in internal/documents.cpp: the command line, `all`, the help and the
// manual follow from it.

namespace leafwright::app {

// A file made in memory; `name` is relative to the folder asked for.
struct OutputFile {
  std::string name;
  std::string bytes;
};
struct RenderedDocument {
  std::vector<OutputFile> files;
  Findings findings; // of laying out and drawing; places as in the project
  int pages = 0;
};
void append(RenderedDocument& to, RenderedDocument from);

// What rendering leaves for the next time, so that only what changed is made again. The same bytes
// come out with it and without.
struct DocumentCache {
  supply::PlanCache plans;
  page::LayoutCache pages;
  pdf::StreamCache files;
  void next_round() {
    plans.next_round();
    pages.next_round();
    files.next_round();
  }
};

// What a document is rendered with beside the project.
struct RenderSettings {
  std::string data_folder; // fonts/ and templates/
  text::Fonts fonts;
  std::string page_template;           // a file of the user's own; empty = the document's
  std::optional<std::int64_t> created; // SOURCE_DATE_EPOCH
  bool draft = false;
  std::vector<std::string> overrides; // what the command line changed, for the provenance
  bool with_project = false;          // put the project file into each PDF
  std::string style_sheet;            // html: a file of the user's own; empty = the one that ships
  Audience audience;
  pdf::Deflate deflate = pdf::Deflate::Small;
  DocumentCache* cache = nullptr; // of the documents made before with these fonts; may be nothing
};

struct DocumentKind {
  std::string_view verb;    // on the command line
  std::string_view purpose; // one line of help
  bool of_run = false;      // needs PlannedProject::buying
  RenderedDocument (*render)(const PlannedProject&, const RenderSettings&);
  std::string_view example = "project.xml -o out --paper a4"; // beside "project.xml -o out"
  bool of_orders = false;  // needs PlannedProject::packing, which what is of a run has anyway
  bool on_request = false; // not among "all": a large file for each order
};
std::span<const DocumentKind> document_kinds();
const DocumentKind* find_document(std::string_view verb);

// `names` of documents; "all" stands for every one that is not on request. False, and which it was,
// for one that is none.
bool known_documents(const std::vector<std::string>& names, std::string& unknown);
// Plans the run and takes the orders, as far as these documents show them.
void plan_for(const std::vector<std::string>& names, PlannedProject& planned,
              const cut::Effort& effort);
// `line` tells which document is being made; there may be none.
RenderedDocument render_documents(const std::vector<std::string>& names,
                                  const PlannedProject& planned, const RenderSettings& settings,
                                  ProgressLine* line = nullptr);

// All of this from the project file on.
struct RenderedProject {
  PlannedProject planned;
  std::vector<OutputFile> files;   // empty when errors stop the work
  Findings findings;               // everything that was found, of all phases
  std::vector<std::string> inputs; // files that were read or would have been: paths
  bool stopped = false;
};
RenderedProject render_project(const std::string& path, const std::vector<std::string>& names,
                               const RenderSettings& settings, const Arguments& arguments,
                               ProgressLine* line = nullptr);

// Everything that a project and its documents are made from, as far as it could be read: project,
// roster, pictures, templates. Sorted, no path twice.
std::vector<std::string> inputs_of(const PlannedProject& planned, const RenderSettings& settings);

// Make syntax (`target: inputs`, blanks and # escaped, $ doubled), with an empty rule for each
// input, so that one which is deleted is no error.
std::string depfile_text(const std::vector<std::string>& targets,
                         const std::vector<std::string>& inputs);

} // namespace leafwright::app
