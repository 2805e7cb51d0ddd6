#pragma once

#include "app/audience.h"
#include "app/prepare.h"
#include "output/pdf.h"
#include "page/page_cache.h"
#include "text/fonts.h"

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace leafwright::app {

// A file made in memory; `name` is relative to the folder asked for.
struct MadeFile {
  std::string name;
  std::string bytes;
};
struct Made {
  std::vector<MadeFile> files;
  Findings findings; // of laying out and drawing; places as in the project
  int pages = 0;
};

void append(Made& to, Made from);

// What making documents leaves for the next time, so that only what changed is made again. The same
// bytes come out with it and without.
struct Kept {
  supply::PlanCache plans;
  page::Kept pages;
  pdf::Kept files;
  void next_round() {
    plans.next_round();
    pages.next_round();
    files.next_round();
  }
};

// What a document is made with beside the project.
struct Workshop {
  std::string data_folder; // fonts/ and templates/
  text::Fonts fonts;
  std::string page_template;           // a file of the user's own; empty = the document's
  std::optional<std::int64_t> created; // SOURCE_DATE_EPOCH
  bool draft = false;
  std::vector<std::string> settings; // what the command line changed, for the provenance
  bool with_project = false;         // put the project file into each PDF
  std::string style_sheet;           // html: a file of the user's own; empty = the one that ships
  Audience audience;
  Kept* kept = nullptr; // of the documents made before with these fonts; may be nothing
};

// One document that can be asked for by name. To add one, add a row in documents.cpp.
struct DocumentKind {
  std::string_view verb;    // on the command line
  std::string_view meaning; // one line of help
  bool of_run = false;      // needs Prepared::buying
  Made (*make)(const Prepared&, const Workshop&);
  bool of_orders = false; // needs Prepared::packing, which what is of a run has anyway
};
std::span<const DocumentKind> document_kinds();
const DocumentKind* find_document(std::string_view verb);

} // namespace leafwright::app
