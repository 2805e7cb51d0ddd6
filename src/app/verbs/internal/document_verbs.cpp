#include "app/documents/documents.h"
#include "app/documents/planned_project.h"
#include "app/documents/session.h"
#include "app/system/diagnostics.h"
#include "app/system/environment.h"
#include "app/system/operating_system.h"
#include "app/system/progress.h"
#include "app/verbs/internal/verb_table.h"
#include "language/agreement.h"
#include "measure/index.h"
#include "output/write_file.h"
#include "read/read.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <ostream>
#include <variant>

namespace leafwright::app {

namespace fs = std::filesystem;

namespace {

int write_depfile(const std::vector<OutputFile>& files, const PlannedProject& planned,
                  const RenderSettings& settings, const Arguments& arguments,
                  Environment& environment) {
  if (arguments.depfile.empty()) return Done;
  std::vector<std::string> targets;
  targets.reserve(files.size());
  for (const OutputFile& made : files)
    targets.push_back((std::filesystem::path(arguments.out) / made.name).string());
  const auto fault =
      file::write_file(arguments.depfile, depfile_text(targets, inputs_of(planned, settings)));
  if (!fault) return Done;
  report(*fault, environment);
  return NotWritten;
}

// A project says so in its first bytes; page templates and grammars are XML too.
bool is_project(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  std::string head(4096, '\0');
  file.read(head.data(), static_cast<std::streamsize>(head.size()));
  head.resize(as_index(std::max<std::streamsize>(file.gcount(), 0)));
  return head.find("urn:leafwright:project") != std::string::npos &&
         head.find("<project") != std::string::npos;
}

std::vector<std::string> projects_below(const std::string& folder, std::error_code& failed) {
  std::vector<std::string> projects;
  auto walk = fs::recursive_directory_iterator(
      folder, fs::directory_options::skip_permission_denied, failed);
  for (; !failed && walk != fs::recursive_directory_iterator(); walk.increment(failed))
    if (walk->path().extension() == ".xml" && walk->is_regular_file() && is_project(walk->path()))
      projects.push_back(walk->path().string());
  std::sort(projects.begin(), projects.end());
  return projects;
}

// One project, in a worker; "" when it worked, else what is told about it.
std::string make_one(const std::string& path, const std::string& folder,
                     const std::vector<std::string>& kinds, const RenderSettings& settings,
                     const Arguments& arguments) {
  const RenderedProject rendered = render_project(path, kinds, settings, arguments);
  if (rendered.stopped) {
    std::string text;
    for (const Finding& finding : rendered.findings)
      if (finding.severity == Severity::Error || arguments.strict)
        text += finding_text(finding, rendered.planned.reading.sources);
    return text.empty() ? path + ": nothing was made\n" : text;
  }
  const fs::path place =
      fs::path(arguments.out) / fs::path(path).parent_path().lexically_relative(folder);
  std::error_code ignored;
  for (const OutputFile& file : rendered.files) {
    const fs::path target = (place / file.name).lexically_normal();
    fs::create_directories(target.parent_path(), ignored);
    if (const auto fault = file::write_file(target.string(), file.bytes))
      return fault->found + "; " + fault->fix + "\n";
  }
  return {};
}

} // namespace

int run_documents(const Arguments& arguments, Environment& environment) {
  std::variant<Session, int> opened = open_session(arguments, environment);
  if (const int* code = std::get_if<int>(&opened)) return *code;
  auto& [settings, planned] = std::get<Session>(opened);
  DocumentCache cache; // documents of one run share drawings and streams
  settings.cache = &cache;
  const Sources& sources = planned.reading.sources;
  const std::vector<std::string> names{arguments.verb};
  ProgressLine line(arguments, environment);
  line.show(planning_words);
  plan_for(names, planned, line.effort());
  line.clear();
  if (stops(planned.order_findings, arguments) && !arguments.draft) {
    print_findings(planned.order_findings, sources, arguments, environment);
    report("nothing was made", environment);
    return FoundErrors;
  }
  Findings findings = planned.findings;
  append(findings, planned.order_findings);
  if (planned.buying) append(findings, planned.buying->findings);
  RenderedDocument made = render_documents(names, planned, settings, &line);
  line.clear();
  append(findings, std::move(made.findings));
  if (const auto code = stopped_by(findings, sources, arguments, environment)) return *code;
  if (const int code = write_all(made.files, arguments, arguments.quiet, environment); code != Done)
    return code;
  return write_depfile(made.files, planned, settings, arguments, environment);
}

int run_batch(const Arguments& arguments, Environment& environment) {
  std::vector<std::string> kinds = arguments.change.make;
  if (kinds.empty()) kinds.emplace_back("tutorial");
  std::string unknown;
  if (!known_documents(kinds, unknown)) {
    report(fmt::format("batch: there is no document called {}", unknown), environment);
    return WrongUse;
  }
  const std::string& folder = arguments.inputs.at(0);
  std::error_code failed;
  const std::vector<std::string> projects = projects_below(folder, failed);
  if (failed) {
    report(fmt::format("{} cannot be read: {}", folder, failed.message()), environment);
    return NotWritten;
  }
  if (projects.empty()) {
    report(fmt::format("there is no project file below {}", folder), environment);
    return FoundErrors;
  }
  std::variant<RenderSettings, int> opened = open_settings(arguments, environment);
  if (const int* code = std::get_if<int>(&opened)) return *code;
  const RenderSettings& settings = std::get<RenderSettings>(opened);

  std::vector<std::string> answers(projects.size());
  int workers = 0;
  double spent = 0;
  {
    ProgressLine line(arguments, environment);
    line.count(0, projects.size());
    std::size_t done = 0;
    workers = run_in_processes(
        projects.size(), arguments.change.jobs,
        [&](std::size_t index) {
          return make_one(projects[index], folder, kinds, settings, arguments);
        },
        [&](std::size_t index, std::string answer) {
          answers[index] = std::move(answer);
          line.count(++done, projects.size());
        });
    spent = line.seconds();
  }
  // In the order of the names, however they came.
  std::size_t failures = 0;
  for (std::size_t i = 0; i < projects.size(); ++i) {
    if (answers[i].empty()) continue;
    ++failures;
    environment.error << fmt::format("{}: failed\n", projects[i]) << answers[i];
  }
  if (!arguments.quiet)
    environment.out << fmt::format("{} of {} {} made, {} failed; {:.1f} s, {} at a time\n",
                                   projects.size() - failures, projects.size(),
                                   words::noun_for(std::ssize(projects), "project"), failures,
                                   spent, workers);
  return failures > 0 ? FoundErrors : Done;
}

} // namespace leafwright::app
