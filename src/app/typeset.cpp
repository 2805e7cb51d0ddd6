#include "app/typeset.h"

#include "output/pdf/pdf.h"
#include "page/layout.h"
#include "read/files.h"

#include <fmt/format.h>

#include <iterator>

namespace leafwright::app {

namespace {

Finding fault(std::string found, std::string expected, std::string mend) {
  Finding finding;
  finding.code = "make-failed";
  finding.found = std::move(found);
  finding.expected = std::move(expected);
  finding.mend = std::move(mend);
  return finding;
}

} // namespace

Made typeset(const guide::Document& document, std::string_view name, std::string_view look,
             const Prepared& prepared, const Workshop& workshop) {
  Made made;
  const std::string template_file =
      workshop.page_template.empty()
          ? fmt::format("{}/templates/{}.xml", workshop.data_folder, look)
          : workshop.page_template;
  const FileBytes bytes = disk_access().read(template_file, 4'000'000);
  if (const auto* why = std::get_if<FileFault>(&bytes)) {
    made.findings.push_back(
        fault(fmt::format("the template {} cannot be read: {}", template_file, why->words),
              "a page template", "give another file to --template"));
    return made;
  }
  page::TemplateReading reading = page::read_template(std::get<std::string>(bytes), template_file);
  made.findings = reading.findings;
  if (has_errors(made.findings)) return made;

  const Project& project = prepared.reading.project;
  const page::LayoutInput input = page::layout_input(project);
  page::Laid laid = page::lay_out(document, reading.page_template, workshop.fonts, input);
  made.findings.insert(made.findings.end(), std::make_move_iterator(laid.findings.begin()),
                       std::make_move_iterator(laid.findings.end()));
  laid.findings.clear();
  made.pages = static_cast<int>(laid.pages.size());

  pdf::PdfOptions options;
  options.created = workshop.created;
  Parsed<std::string> written = pdf::write_pdf(laid, workshop.fonts, project.pictures, options);
  if (!written) {
    const Misread& why = written.misread();
    made.findings.push_back(fault(why.found, why.expected, why.mend));
    return made;
  }
  made.files.push_back({fmt::format("{}-{}.pdf", project.id, name), *written});
  return made;
}

} // namespace leafwright::app
