#include "app/html.h"

#include "app/findings.h"
#include "app/typeset.h"
#include "output/html/html.h"
#include "read/files.h"

#include <fmt/format.h>

namespace leafwright::app {

Made web_page(const guide::Document& document, std::string_view name, std::string_view look,
              const Prepared& prepared, const Workshop& workshop) {
  Made made;
  const std::optional<Look> read = page_look(look, workshop, made.findings);
  if (!read) return made;
  const std::string style_file = workshop.style_sheet.empty()
                                     ? workshop.data_folder + "/templates/web.css"
                                     : workshop.style_sheet;
  const FileBytes style = disk_access().read(style_file, 1'000'000);
  if (const auto* why = std::get_if<FileFault>(&style)) {
    made.findings.push_back(
        fault(fmt::format("the style sheet {} cannot be read: {}", style_file, why->words),
              "a style sheet", "give another file to --style"));
    return made;
  }
  const Project& project = prepared.reading.project;
  html::HtmlOptions options;
  options.style_sheet = std::get<std::string>(style);
  options.generator = "leafwright " LEAFWRIGHT_VERSION;
  options.grey = workshop.audience.grey;
  Parsed<html::Html> page =
      html::write_html(document, project, read->look, workshop.fonts, options);
  if (!page) {
    const ParseError& why = page.parse_error();
    made.findings.push_back(fault(why.found, why.expected, why.fix));
    return made;
  }
  html::Html written = std::move(page).value();
  append(made.findings, std::move(written.findings));
  made.files.push_back({fmt::format("{}-{}.html", project.id, name), std::move(written.bytes)});
  return made;
}

} // namespace leafwright::app
