#include "app/provenance.h"

#include "output/sha256.h"

#include <fmt/format.h>

#include <filesystem>

namespace leafwright::app {

namespace fs = std::filesystem;

namespace {

// Beside the project, or by its last part: where on a disk a file lay is nobody's business.
std::string shown_name(const std::string& path, const std::string& folder) {
  const fs::path inside = fs::path(path).lexically_relative(folder.empty() ? "." : folder);
  if (inside.empty() || *inside.begin() == "..") return fs::path(path).filename().generic_string();
  return inside.generic_string();
}

} // namespace

provenance::Provenance provenance_of(const Prepared& prepared, const Workshop& workshop,
                                     std::string_view name, std::string_view template_name,
                                     std::string_view template_bytes) {
  const Project& project = prepared.reading.project;
  const DocumentKind* kind = find_document(name);
  const bool shows_orders = kind != nullptr && (kind->of_run || kind->of_orders);
  provenance::Provenance from;
  from.project = project.id;
  from.document = std::string(name);
  from.edition = fmt::format("{}", project.edition);
  from.program = LEAFWRIGHT_VERSION;
  from.settings = workshop.settings;
  if (workshop.draft) from.settings.emplace_back("draft");
  const Sources& sources = prepared.reading.sources;
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
  from.inputs.push_back({"template " + fs::path(template_name).filename().generic_string(),
                         digest::sha256(template_bytes)});
  return from;
}

} // namespace leafwright::app
