#include "app/making.h"

#include "app/findings.h"
#include "app/orders.h"
#include "app/talk.h"

#include <algorithm>
#include <filesystem>
#include <iterator>

namespace leafwright::app {

namespace fs = std::filesystem;

namespace {

bool wanted(const std::vector<std::string>& kinds, std::string_view verb) {
  return std::any_of(kinds.begin(), kinds.end(),
                     [&](const std::string& one) { return one == "all" || one == verb; });
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

bool known_documents(const std::vector<std::string>& kinds, std::string& unknown) {
  for (const std::string& one : kinds)
    if (one != "all" && find_document(one) == nullptr) {
      unknown = one;
      return false;
    }
  return true;
}

cut::Effort effort_of(const Arguments& arguments) {
  cut::Effort effort;
  effort.seconds = arguments.seconds;
  return effort;
}

std::vector<std::string> inputs_of(const Prepared& prepared, const Workshop& workshop) {
  std::vector<std::string> inputs;
  const Project& project = prepared.reading.project;
  const std::string folder = project.folder.empty() ? "." : project.folder;
  if (!project.files.empty()) inputs.push_back(project.files.front());
  if (!project.run.roster.empty())
    inputs.push_back((fs::path(folder) / project.run.roster).string());
  for (const Picture& picture : project.pictures)
    inputs.push_back((fs::path(folder) / picture.path).string());
  if (!workshop.page_template.empty()) {
    inputs.push_back(workshop.page_template);
  } else {
    std::error_code ignored;
    for (const auto& entry : fs::directory_iterator(workshop.data_folder + "/templates", ignored))
      if (entry.path().extension() == ".xml") inputs.push_back(entry.path().string());
  }
  inputs.push_back(workshop.style_sheet.empty() ? workshop.data_folder + "/templates/web.css"
                                                : workshop.style_sheet);
  std::sort(inputs.begin(), inputs.end());
  inputs.erase(std::unique(inputs.begin(), inputs.end()), inputs.end());
  return inputs;
}

Making make_named(const std::string& path, const std::vector<std::string>& kinds,
                  const Workshop& workshop, const Arguments& arguments) {
  Making making;
  supply::PlanCache* const kept = workshop.kept != nullptr ? &workshop.kept->plans : nullptr;
  making.prepared = prepare(path, workshop.settings, kept);
  Prepared& prepared = making.prepared;
  making.findings = prepared.findings;
  making.inputs = inputs_of(prepared, workshop);
  making.stopped =
      !prepared.reading.ok() || (stops(prepared.findings, arguments) && !arguments.draft);
  if (making.stopped) return making;
  bool of_run = false, of_orders = false;
  for (const DocumentKind& kind : document_kinds()) {
    if (!wanted(kinds, kind.verb)) continue;
    of_run = of_run || kind.of_run;
    of_orders = of_orders || kind.of_orders;
  }
  if (of_run)
    plan_run(prepared, effort_of(arguments));
  else if (of_orders)
    take_orders(prepared);
  append(making.findings, prepared.order_findings);
  if (prepared.buying) append(making.findings, prepared.buying->findings);
  for (const DocumentKind& kind : document_kinds()) {
    if (!wanted(kinds, kind.verb)) continue;
    Made made = kind.make(prepared, workshop);
    append(making.findings, made.findings);
    std::move(made.files.begin(), made.files.end(), std::back_inserter(making.files));
  }
  making.stopped = stops(making.findings, arguments) && !arguments.draft;
  if (making.stopped) making.files.clear();
  return making;
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
