#include "app/typeset.h"

#include "app/findings.h"
#include "app/provenance.h"
#include "page/frame.h"
#include "read/files.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <iterator>
#include <utility>

namespace leafwright::app {

Finding fault(std::string found, std::string expected, std::string fix) {
  Finding finding;
  finding.code = "make-failed";
  finding.found = std::move(found);
  finding.expected = std::move(expected);
  finding.fix = std::move(fix);
  return finding;
}

std::optional<Look> page_look(std::string_view name, const Workshop& workshop, Findings& findings) {
  const std::string template_file =
      workshop.page_template.empty()
          ? fmt::format("{}/templates/{}.xml", workshop.data_folder, name)
          : workshop.page_template;
  FileBytes bytes = disk_access().read(template_file, 4'000'000);
  if (const auto* why = std::get_if<FileFault>(&bytes)) {
    findings.push_back(
        fault(fmt::format("the template {} cannot be read: {}", template_file, why->words),
              "a page template", "give another file to --template"));
    return std::nullopt;
  }
  std::string text = std::get<std::string>(std::move(bytes));
  page::TemplateReading reading = page::read_template(text, template_file);
  const bool sound = !has_errors(reading.findings);
  append(findings, std::move(reading.findings));
  if (!sound) return std::nullopt;
  return Look{std::move(reading.page_template), template_file, std::move(text)};
}

LaidOut laid_out(const guide::Document& document, std::string_view name, std::string_view look,
                 const Prepared& prepared, const Workshop& workshop) {
  LaidOut out;
  std::optional<Look> read = page_look(look, workshop, out.findings);
  if (!read) return out;
  out.look = std::move(read->look);

  const Project& project = prepared.reading.project;
  page::Kept* const kept = workshop.kept != nullptr ? &workshop.kept->pages : nullptr;
  out.laid = page::lay_out(document, out.look, workshop.fonts, page::layout_input(project), kept);
  append(out.findings, std::exchange(out.laid.findings, {}));
  if (workshop.audience.grey) page::make_grey(out.laid);
  out.options.created = workshop.created;
  if (workshop.kept != nullptr) out.options.kept = &workshop.kept->files;
  out.options.provenance = provenance_of(prepared, workshop, name, read->file, read->text);
  // Orders may stand in the project file itself; names of buyers are handed to nobody.
  const std::vector<Order>& orders = project.run.orders;
  const bool names_buyers = std::any_of(orders.begin(), orders.end(),
                                        [](const Order& one) { return one.place.file == 0; });
  if (workshop.with_project && names_buyers) {
    out.findings.push_back(fault("the project file holds orders, and so names of buyers",
                                 "a project file that may be handed on",
                                 "put the orders into a roster beside it"));
  } else if (workshop.with_project && !prepared.reading.sources.empty()) {
    const SourceText& source = prepared.reading.sources.front();
    out.options.attachments.push_back(
        {std::filesystem::path(source.name()).filename().generic_string(), "application/xml",
         "The project that this document was made from", std::string(source.text())});
  }
  return out;
}

Made typeset(guide::Document document, std::string_view name, std::string_view look,
             const Prepared& prepared, const Workshop& workshop) {
  LaidOut out = laid_out(document, name, look, prepared, workshop);
  document = {};
  Made made;
  made.findings = std::move(out.findings);
  made.pages = static_cast<int>(out.laid.pages.size());
  if (out.laid.pages.empty()) return made;
  const Project& project = prepared.reading.project;
  Parsed<std::string> written =
      pdf::write_pdf(std::move(out.laid), workshop.fonts, project.pictures, out.options);
  if (!written) {
    const ParseError& why = written.parse_error();
    made.findings.push_back(fault(why.found, why.expected, why.fix));
    return made;
  }
  made.files.push_back({fmt::format("{}-{}.pdf", project.id, name), *written});
  return made;
}

} // namespace leafwright::app
