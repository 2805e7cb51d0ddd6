#include "app/documents/internal/document_kinds.h"
#include "app/documents/rendering.h"
#include "app/system/diagnostics.h"
#include "guide/announcing/announcements.h"
#include "guide/business/business.h"

#include <filesystem>
#include <map>
#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace leafwright::app {

namespace fs = std::filesystem;

std::vector<std::string> announcing_templates(const Project& project,
                                              const RenderSettings& settings) {
  std::map<std::string, std::string> by_name; // in the order of their names
  const std::string beside = (project.folder.empty() ? "." : project.folder) + "/announcing";
  for (const std::string& folder : {settings.data_folder + "/templates/announcing", beside}) {
    std::error_code ignored; // there may be no folder
    for (const auto& entry : fs::directory_iterator(folder, ignored))
      if (entry.path().extension() == ".txt")
        by_name[entry.path().filename().string()] = entry.path().string();
  }
  std::vector<std::string> paths;
  for (auto& [name, path] : by_name) paths.push_back(std::move(path));
  return paths;
}

RenderedDocument render_announcements(const PlannedProject& planned,
                                      const RenderSettings& settings) {
  constexpr std::size_t most_bytes = 100'000; // of a template
  const Project& project = planned.reading.project;
  RenderedDocument made;
  if (!guide::has_offer(project, Tier::Audience::Anyone)) return made;
  std::vector<guide::TextTemplate> templates;
  for (const std::string& path : announcing_templates(project, settings)) {
    FileBytes bytes = disk_access().read(path, most_bytes);
    if (const auto* why = std::get_if<FileFault>(&bytes)) {
      made.findings.push_back(fault("the template " + path + " cannot be read: " + why->words,
                                    "a text template", "mend it, or take it away"));
      continue;
    }
    templates.push_back(
        {fs::path(path).filename().string(), std::get<std::string>(std::move(bytes))});
  }
  guide::Announcements texts = guide::announcements(project, needs_in_sheets(planned), templates);
  append(made.findings, std::move(texts.findings));
  const std::string folder = project.id + "-announcements/";
  for (guide::Announcement& one : texts.texts) made.files.push_back({folder + one.name, one.text});
  made.files.push_back({folder + "made-for.json", guide::announcements_json(project, texts)});
  return made;
}

} // namespace leafwright::app
