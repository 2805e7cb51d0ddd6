#include "app/documents/rendering.h"

#include "app/system/diagnostics.h"
#include "output/html/html.h"
#include "output/pdf.h"
#include "page/flow.h"
#include "read/read.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <iterator>
#include <utility>

namespace leafwright::app {

namespace fs = std::filesystem;

Finding fault(std::string found, std::string expected, std::string fix) {
  Finding finding;
  finding.code = "make-failed";
  finding.found = std::move(found);
  finding.expected = std::move(expected);
  finding.fix = std::move(fix);
  return finding;
}

Finding nothing_to_tell(std::string_view paper) {
  Finding finding;
  finding.severity = Severity::Note;
  finding.code = "run-empty";
  finding.found = fmt::format("no {} is made: no kits are ordered or expected", paper);
  finding.expected = "orders, or the number of kits that each tier expects";
  finding.fix = "add them to the run";
  return finding;
}

bool any_kits(const PlannedProject& planned) {
  if (planned.buying)
    return std::ranges::any_of(planned.buying->kits, [](int kits) { return kits > 0; });
  return planned.packing && std::ranges::any_of(planned.packing->parcels.kinds,
                                                [](const auto& kind) { return kind.kits > 0; });
}

Finding fault(const ParseError& why) { return fault(why.found, why.expected, why.fix); }

std::optional<LoadedTemplate> load_template(std::string_view template_name,
                                            const RenderSettings& settings, Findings& findings) {
  const std::string template_file =
      settings.page_template.empty()
          ? fmt::format("{}/templates/{}.xml", settings.data_folder, template_name)
          : settings.page_template;
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
  return LoadedTemplate{std::move(reading.page_template), template_file, std::move(text)};
}

LaidOut laid_out(const guide::Document& document, std::string_view name,
                 std::string_view template_name, const PlannedProject& planned,
                 const RenderSettings& settings) {
  LaidOut out;
  std::optional<LoadedTemplate> read = load_template(template_name, settings, out.findings);
  if (!read) return out;
  out.page_template = std::move(read->page_template);

  const Project& project = planned.reading.project;
  page::LayoutCache* const kept = settings.cache != nullptr ? &settings.cache->pages : nullptr;
  out.laid =
      page::lay_out(document, out.page_template, settings.fonts, page::layout_input(project), kept);
  append(out.findings, std::exchange(out.laid.findings, {}));
  if (settings.audience.grey) page::make_grey(out.laid);
  out.options.created = settings.created;
  out.options.effort = settings.deflate;
  if (settings.cache != nullptr) out.options.kept = &settings.cache->files;
  out.options.provenance = provenance_of(planned, settings, name, read->file, read->text);
  // Orders may stand in the project file itself; names of buyers are handed to nobody.
  const auto in_project = [](const Order& one) { return one.place.file == 0; };
  const bool names_buyers = std::ranges::any_of(project.run.orders, in_project) ||
                            std::ranges::any_of(project.run.set_aside, in_project);
  if (settings.with_project && names_buyers) {
    out.findings.push_back(fault("the project file holds orders, and so names of buyers",
                                 "a project file that may be handed on",
                                 "put the orders into a roster beside it"));
  } else if (settings.with_project && !planned.reading.sources.empty()) {
    const SourceText& source = planned.reading.sources.front();
    out.options.attachments.push_back(
        {std::filesystem::path(source.name()).filename().generic_string(), "application/xml",
         "The project that this document was made from", std::string(source.text())});
  }
  return out;
}

RenderedDocument typeset(guide::Document document, std::string_view name,
                         std::string_view template_name, const PlannedProject& planned,
                         const RenderSettings& settings) {
  LaidOut out = laid_out(document, name, template_name, planned, settings);
  document = {};
  RenderedDocument made;
  made.findings = std::move(out.findings);
  made.pages = static_cast<int>(out.laid.pages.size());
  if (out.laid.pages.empty()) return made;
  const Project& project = planned.reading.project;
  Parsed<std::string> written =
      pdf::write_pdf(std::move(out.laid), settings.fonts, project.pictures, out.options);
  if (!written) {
    made.findings.push_back(fault(written.parse_error()));
    return made;
  }
  made.files.push_back({fmt::format("{}-{}.pdf", project.id, name), *written});
  return made;
}

RenderedDocument web_page(const guide::Document& document, std::string_view name,
                          std::string_view template_name, const PlannedProject& planned,
                          const RenderSettings& settings) {
  RenderedDocument made;
  const std::optional<LoadedTemplate> read = load_template(template_name, settings, made.findings);
  if (!read) return made;
  const std::string style_file = settings.style_sheet.empty()
                                     ? settings.data_folder + "/templates/web.css"
                                     : settings.style_sheet;
  const FileBytes style = disk_access().read(style_file, 1'000'000);
  if (const auto* why = std::get_if<FileFault>(&style)) {
    made.findings.push_back(
        fault(fmt::format("the style sheet {} cannot be read: {}", style_file, why->words),
              "a style sheet", "give another file to --style"));
    return made;
  }
  const Project& project = planned.reading.project;
  html::HtmlOptions options;
  options.style_sheet = std::get<std::string>(style);
  options.generator = "leafwright " LEAFWRIGHT_VERSION;
  options.grey = settings.audience.grey;
  Parsed<html::Html> page =
      html::write_html(document, project, read->page_template, settings.fonts, options);
  if (!page) {
    made.findings.push_back(fault(page.parse_error()));
    return made;
  }
  html::Html written = std::move(page).value();
  append(made.findings, std::move(written.findings));
  made.files.push_back({fmt::format("{}-{}.html", project.id, name), std::move(written.bytes)});
  return made;
}

namespace {

// Beside the project, or by its last part: where on a disk a file lay is nobody's business.
std::string shown_name(const std::string& path, const std::string& folder) {
  const fs::path inside = fs::path(path).lexically_relative(folder.empty() ? "." : folder);
  if (inside.empty() || *inside.begin() == "..") return fs::path(path).filename().generic_string();
  return inside.generic_string();
}

} // namespace

provenance::Provenance provenance_of(const PlannedProject& planned, const RenderSettings& settings,
                                     std::string_view name, std::string_view template_file,
                                     std::string_view template_bytes) {
  const Project& project = planned.reading.project;
  const DocumentKind* kind = find_document(name);
  const bool shows_orders = kind != nullptr && (kind->of_run || kind->of_orders);
  provenance::Provenance from;
  from.project = project.id;
  from.document = std::string(name);
  from.edition = fmt::format("{}", project.edition);
  from.program = LEAFWRIGHT_VERSION;
  from.settings = settings.overrides;
  if (settings.draft) from.settings.emplace_back("draft");
  const Sources& sources = planned.reading.sources;
  const auto add = [&](const SourceText& source) {
    from.inputs.push_back(
        {shown_name(source.name(), project.folder), digest::sha256(source.text())});
  };
  if (!sources.empty()) add(sources.front());
  if (shows_orders && !project.run.roster.empty())
    for (const SourceText& source : sources)
      if (source.name() == project.folder + "/" + project.run.roster) add(source);
  for (const Picture& picture : project.pictures)
    from.inputs.push_back({picture.path, digest::sha256(picture.bytes)});
  from.inputs.push_back({"template " + fs::path(template_file).filename().generic_string(),
                         digest::sha256(template_bytes)});
  return from;
}

} // namespace leafwright::app
