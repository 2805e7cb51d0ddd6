#include "app/documents/documents.h"

#include "app/documents/internal/document_kinds.h"
#include "app/documents/planned_project.h"
#include "app/system/diagnostics.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <iterator>

namespace leafwright::app {

namespace fs = std::filesystem;

namespace {

bool wanted(const std::vector<std::string>& names, const DocumentKind& kind) {
  return std::ranges::any_of(names, [&](const std::string& one) {
    return one == kind.verb || (one == "all" && !kind.on_request);
  });
}

// A name as a makefile holds it.
std::string escaped(const std::string& path) {
  std::string out;
  for (const char c : path) {
    if (c == ' ' || c == '#' || c == ':' || c == '\\') out += '\\';
    if (c == '$') out += '$';
    out += c;
  }
  return out;
}

} // namespace

bool known_documents(const std::vector<std::string>& names, std::string& unknown) {
  for (const std::string& one : names)
    if (one != "all" && find_document(one) == nullptr) {
      unknown = one;
      return false;
    }
  return true;
}

void plan_for(const std::vector<std::string>& names, PlannedProject& planned,
              const cut::Effort& effort) {
  const auto any = [&](bool DocumentKind::*needs) {
    return std::ranges::any_of(document_kinds(), [&](const DocumentKind& kind) {
      return wanted(names, kind) && kind.*needs;
    });
  };
  if (any(&DocumentKind::of_run))
    plan_run(planned, effort);
  else if (any(&DocumentKind::of_orders))
    take_orders(planned);
}

RenderedDocument render_documents(const std::vector<std::string>& names,
                                  const PlannedProject& planned, const RenderSettings& settings,
                                  ProgressLine* line) {
  RenderedDocument all;
  const std::ptrdiff_t whole = std::ranges::count_if(
      document_kinds(), [&](const DocumentKind& kind) { return wanted(names, kind); });
  std::ptrdiff_t number = 0;
  for (const DocumentKind& kind : document_kinds()) {
    if (!wanted(names, kind)) continue;
    if (line != nullptr) line->show(fmt::format("{} ({} of {})", kind.verb, ++number, whole));
    append(all, kind.render(planned, settings));
  }
  return all;
}

std::vector<std::string> inputs_of(const PlannedProject& planned, const RenderSettings& settings) {
  std::vector<std::string> inputs;
  const Project& project = planned.reading.project;
  const std::string folder = project.folder.empty() ? "." : project.folder;
  if (!project.files.empty()) inputs.push_back(project.files.front());
  if (!project.run.roster.empty())
    inputs.push_back((fs::path(folder) / project.run.roster).string());
  for (const Picture& picture : project.pictures)
    inputs.push_back((fs::path(folder) / picture.path).string());
  if (!settings.page_template.empty()) {
    inputs.push_back(settings.page_template);
  } else {
    std::error_code ignored;
    for (const auto& entry : fs::directory_iterator(settings.data_folder + "/templates", ignored))
      if (entry.path().extension() == ".xml") inputs.push_back(entry.path().string());
  }
  inputs.push_back(settings.style_sheet.empty() ? settings.data_folder + "/templates/web.css"
                                                : settings.style_sheet);
  inputs.push_back(order_form_frame(settings));
  for (std::string& path : announcing_templates(project, settings))
    inputs.push_back(std::move(path));
  std::sort(inputs.begin(), inputs.end());
  inputs.erase(std::unique(inputs.begin(), inputs.end()), inputs.end());
  return inputs;
}

RenderedProject render_project(const std::string& path, const std::vector<std::string>& names,
                               const RenderSettings& settings, const Arguments& arguments,
                               ProgressLine* line) {
  RenderedProject rendered;
  supply::PlanCache* const kept = settings.cache != nullptr ? &settings.cache->plans : nullptr;
  if (line != nullptr) line->show(fmt::format("Reading {}", path));
  rendered.planned = plan_project(path, settings.overrides, kept);
  PlannedProject& planned = rendered.planned;
  rendered.findings = planned.findings;
  rendered.inputs = inputs_of(planned, settings);
  rendered.stopped =
      !planned.reading.ok() || (stops(planned.findings, arguments) && !arguments.draft);
  if (rendered.stopped) return rendered;
  if (line != nullptr) line->show(planning_words);
  plan_for(names, planned, line != nullptr ? line->effort() : effort_of(arguments));
  append(rendered.findings, planned.order_findings);
  if (planned.buying) append(rendered.findings, planned.buying->findings);
  RenderedDocument made = render_documents(names, planned, settings, line);
  append(rendered.findings, std::move(made.findings));
  rendered.stopped = stops(rendered.findings, arguments) && !arguments.draft;
  if (!rendered.stopped) rendered.files = std::move(made.files);
  return rendered;
}

std::string depfile_text(const std::vector<std::string>& targets,
                         const std::vector<std::string>& inputs) {
  std::string text;
  for (const std::string& target : targets) text += (text.empty() ? "" : " ") + escaped(target);
  text += ":";
  for (const std::string& input : inputs) text += " \\\n  " + escaped(input);
  text += "\n";
  for (const std::string& input : inputs) text += "\n" + escaped(input) + ":\n";
  return text;
}

} // namespace leafwright::app
