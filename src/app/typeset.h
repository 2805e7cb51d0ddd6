#pragma once

#include "app/documents.h"
#include "guide/block.h"
#include "output/pdf.h"
#include "page/layout.h"

#include <optional>
#include <string>
#include <string_view>

namespace leafwright::app {

// A document on its pages, and what is written into its PDF beside them.
struct LaidOut {
  page::Laid laid; // no pages: errors are among the findings
  page::Template look;
  pdf::PdfOptions options;
  Findings findings;
};
// A page template as it was read, and where from.
struct Look {
  page::Template look;
  std::string file, text;
};
// `name` is that of a template in templates/, used unless the user gave one. Nothing when it cannot
// be read; why is among the findings.
std::optional<Look> page_look(std::string_view name, const Workshop& workshop, Findings& findings);

// `look` names the template in templates/ that is used unless the user gave one; `name` is the
// document's verb.
LaidOut laid_out(const guide::Document& document, std::string_view name, std::string_view look,
                 const Prepared& prepared, const Workshop& workshop);

// The pages as PDF, <project id>-<name>.pdf. The document is let go as soon as it stands on pages.
Made typeset(guide::Document document, std::string_view name, std::string_view look,
             const Prepared& prepared, const Workshop& workshop);

// An error of making, with no place in the project.
Finding fault(std::string found, std::string expected, std::string fix);

} // namespace leafwright::app
