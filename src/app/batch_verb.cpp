#include "app/count_line.h"
#include "app/exit_codes.h"
#include "app/making.h"
#include "app/studio.h"
#include "app/talk.h"
#include "app/verbs.h"
#include "app/workers.h"
#include "measure/index.h"
#include "output/write_file.h"
#include "read/report.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <ostream>

namespace leafwright::app {

namespace fs = std::filesystem;

namespace {

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
                     const std::vector<std::string>& kinds, const Workshop& workshop,
                     const Arguments& arguments) {
  const Making making = make_named(path, kinds, workshop, arguments);
  if (making.stopped) {
    std::string text;
    for (const Finding& finding : making.findings)
      if (finding.severity == Severity::Error || arguments.strict)
        text += finding_text(finding, making.prepared.reading.sources);
    return text.empty() ? path + ": nothing was made\n" : text;
  }
  const fs::path place =
      fs::path(arguments.out) / fs::path(path).parent_path().lexically_relative(folder);
  std::error_code ignored;
  for (const MadeFile& file : making.files) {
    const fs::path target = (place / file.name).lexically_normal();
    fs::create_directories(target.parent_path(), ignored);
    if (const auto fault = file::write_file(target.string(), file.bytes))
      return fault->found + "; " + fault->fix + "\n";
  }
  return {};
}

} // namespace

int make_batch(const Arguments& arguments, Surroundings& surroundings) {
  std::vector<std::string> kinds = arguments.change.make;
  if (kinds.empty()) kinds.emplace_back("tutorial");
  std::string unknown;
  if (!known_documents(kinds, unknown)) {
    complain(fmt::format("batch: there is no document called {}", unknown), surroundings);
    return WrongUse;
  }
  const std::string& folder = arguments.inputs.at(0);
  std::error_code failed;
  const std::vector<std::string> projects = projects_below(folder, failed);
  if (failed) {
    complain(fmt::format("{} cannot be read: {}", folder, failed.message()), surroundings);
    return NotWritten;
  }
  if (projects.empty()) {
    complain(fmt::format("there is no project file below {}", folder), surroundings);
    return FoundErrors;
  }
  std::variant<Workshop, int> opened = open_workshop(arguments, surroundings);
  if (const int* code = std::get_if<int>(&opened)) return *code;
  const Workshop& workshop = std::get<Workshop>(opened);

  std::vector<std::string> answers(projects.size());
  int workers = 0;
  double spent = 0;
  {
    CountLine line(projects.size(), arguments.quiet, surroundings);
    workers = share_out(
        projects.size(), arguments.change.jobs,
        [&](std::size_t index) {
          return make_one(projects[index], folder, kinds, workshop, arguments);
        },
        [&](std::size_t index, std::string answer) {
          answers[index] = std::move(answer);
          line.one_done();
        });
    spent = line.seconds();
  }
  // In the order of the names, however they came.
  std::size_t failures = 0;
  for (std::size_t i = 0; i < projects.size(); ++i) {
    if (answers[i].empty()) continue;
    ++failures;
    surroundings.error << fmt::format("{}: failed\n", projects[i]) << answers[i];
  }
  if (!arguments.quiet)
    surroundings.out << fmt::format(
        "{} of {} {} made, {} failed; {:.1f} s, {} at a time\n", projects.size() - failures,
        projects.size(), projects.size() == 1 ? "project" : "projects", failures, spent, workers);
  return failures > 0 ? FoundErrors : Done;
}

} // namespace leafwright::app
