#pragma once

#include "basics/parsed.h"
#include "guide/block.h"
#include "model/outline.h"
#include "model/project.h"
#include "page/template.h"
#include "text/fonts.h"

#include <string>

namespace leafwright::html {

// Contrast ratio of two colours, 1 to 21, and what text needs at least (WCAG 2.2, "contrast ratio",
// "relative luminance", and success criterion 1.4.3).
double contrast_ratio(Colour a, Colour b);
inline constexpr double readable = 4.5;

// `colour`, darkened no more than it takes to be read on `ground`.
Colour darkened_on(Colour colour, Colour ground);

// A document as one page for a browser, with everything in the file: fonts, drawings, photographs.
// No scripts. The title is that of the cover; without a cover, the heading that the document begins
// with when it is the only one of level 1, else the document's. HTML that is XML as well (the
// polyglot subset), meant for WCAG 2.2 AA: one h1, headings in order, tables with header cells,
// drawings with the alternative texts of the scenes. Unlike the other pens it sees the content
// itself, since a browser breaks its lines and there are no pages; its drawings are the same
// display lists.

struct HtmlOptions {
  std::string style_sheet; // CSS: templates/web.css, or one of the user's own
  std::string generator;   // the program's name and version; empty = not told
  bool grey = false;       // for a printer without colour
};

struct Html {
  std::string bytes;
  // "page-crowded": a drawing had no room for a label; "page-too-large": a full-size drawing that
  // no sheet holds is left to the PDF.
  Findings findings;
};

// Colours and the few words come from `look`, the template of the PDF edition; where its colours
// are too pale to be read (contrast below 4.5 : 1), text has them darker. A picture that cannot be
// read, and a style sheet that would end its own element, are misreads.
Parsed<Html> write_html(const guide::Document& document, const Project& project,
                        const page::Template& look, const text::Fonts& fonts,
                        const HtmlOptions& options);

} // namespace leafwright::html
