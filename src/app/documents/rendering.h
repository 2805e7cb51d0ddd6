#pragma once

#include "app/documents/documents.h"
#include "guide/block.h"
#include "output/pdf.h"
#include "page/layout.h"

#include <optional>
#include <string>
#include <string_view>

// From the content of a document to its bytes: page template, layout, PDF or web page. `name` is
// the document's verb and names its files, <project id>-<name>.pdf; `template_name` is the template
// in templates/ that is used unless the user gave one. What goes wrong is among the findings, and
// then there are no files.
//
//   typeset(guide::totals(project, list, {}), "totals", "workshop", planned, settings);

namespace leafwright::app {

// A page template as it was read, and where from.
struct LoadedTemplate {
  page::Template page_template;
  std::string file, text;
};
std::optional<LoadedTemplate> load_template(std::string_view template_name,
                                            const RenderSettings& settings, Findings& findings);

// A document on its pages, and what is written into its PDF beside them.
struct LaidOut {
  page::Laid laid; // no pages: errors are among the findings
  page::Template page_template;
  pdf::PdfOptions options;
  Findings findings;
};
LaidOut laid_out(const guide::Document& document, std::string_view name,
                 std::string_view template_name, const PlannedProject& planned,
                 const RenderSettings& settings);

// The pages as PDF. The document is let go as soon as it stands on pages.
RenderedDocument typeset(guide::Document document, std::string_view name,
                         std::string_view template_name, const PlannedProject& planned,
                         const RenderSettings& settings);

// For a paper that would tell nothing and is not made: "no cutting plan: no kits ...".
Finding nothing_to_tell(std::string_view paper);
// Whether any kit is ordered or expected.
bool any_kits(const PlannedProject& planned);

// The same, or a note that there is none: for a paper that without kits would tell nothing.
// `make` gives the content and is called only where it is wanted.
template <class Make>
RenderedDocument typeset_if(bool tells, std::string_view paper, Make make, std::string_view name,
                            std::string_view template_name, const PlannedProject& planned,
                            const RenderSettings& settings) {
  if (tells) return typeset(make(), name, template_name, planned, settings);
  RenderedDocument none;
  none.findings.push_back(nothing_to_tell(paper));
  return none;
}

// As one page for a browser, <project id>-<name>.html, in the colours of the template.
RenderedDocument web_page(const guide::Document& document, std::string_view name,
                          std::string_view template_name, const PlannedProject& planned,
                          const RenderSettings& settings);

// What a document was made from: the project file, its pictures, the page template, what the
// command line changed; the roster only where the document shows orders.
provenance::Provenance provenance_of(const PlannedProject& planned, const RenderSettings& settings,
                                     std::string_view name, std::string_view template_file,
                                     std::string_view template_bytes);

// An error of rendering, with no place in the project.
Finding fault(std::string found, std::string expected, std::string fix);
Finding fault(const ParseError& why);

} // namespace leafwright::app
