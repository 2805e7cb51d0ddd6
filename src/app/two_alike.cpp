#include "app/two_alike.h"

#include "app/typeset.h"
#include "output/imposition.h"

#include <fmt/format.h>

#include <string>
#include <vector>

namespace leafwright::app {

namespace {

// Down the middle, where the sheet is cut apart.
DrawItem cutting_line(Size sheet) {
  using Kind = Segment::Kind;
  Stroke line;
  line.path = {{Kind::Move, {}, {}, {sheet.width / 2, {}}},
               {Kind::Line, {}, {}, {sheet.width / 2, sheet.height}}};
  line.width = points(0.5);
  line.colour = {150, 146, 138};
  line.dash = {points(4), points(3)};
  return line;
}

} // namespace

Made two_alike(const guide::Document& document, std::string_view name, const Prepared& prepared,
               const Workshop& workshop) {
  const Project& project = prepared.reading.project;
  LaidOut out = laid_out(document, name, project.paper == "a4" ? "handout-a5" : "handout-half",
                         prepared, workshop);
  Made made;
  made.findings = std::move(out.findings);
  made.pages = static_cast<int>(out.laid.pages.size());
  if (out.laid.pages.empty()) return made;
  const Parsed<std::string> pages =
      pdf::write_pdf(out.laid, workshop.fonts, project.pictures, out.options);
  page::Laid sheets_laid;
  sheets_laid.title = out.laid.title;
  sheets_laid.author = out.laid.author;
  sheets_laid.language = out.laid.language;
  sheets_laid.created = out.laid.created;
  std::vector<impose::Sheet> sheets;
  for (std::size_t i = 0; i < out.laid.pages.size(); ++i) {
    const Size page = out.laid.pages[i].size;
    const Size sheet{page.width * 2, page.height};
    impose::Sheet one{sheet, {}, false};
    for (const Length x : {Length{}, page.width})
      one.pages.push_back({static_cast<int>(i), {x, {}}, 1.0, {{x, {}}, page}});
    sheets.push_back(std::move(one));
    page::LaidPage under{sheet, fmt::format("{}", i + 1), true, {}};
    under.items.push_back(cutting_line(sheet));
    sheets_laid.pages.push_back(std::move(under));
  }
  pdf::PdfOptions of_sheets = out.options;
  of_sheets.attachments.clear();
  const Parsed<std::string> under = pdf::write_pdf(sheets_laid, workshop.fonts, {}, of_sheets);
  const Parsed<std::string> whole = !pages   ? pages
                                    : !under ? under
                                             : impose::composed(*under, *pages, sheets, "Simplex");
  if (!whole) {
    const ParseError& why = whole.parse_error();
    made.findings.push_back(fault(why.found, why.expected, why.fix));
    return made;
  }
  made.files.push_back({fmt::format("{}-{}.pdf", project.id, name), *whole});
  return made;
}

} // namespace leafwright::app
