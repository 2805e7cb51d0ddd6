#include "app/documents/documents.h"
#include "app/documents/session.h"
#include "app/system/diagnostics.h"
#include "app/system/environment.h"
#include "app/system/operating_system.h"
#include "app/verbs/internal/verb_table.h"
#include "output/pdf.h"
#include "output/write_file.h"
#include "read/read.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <map>
#include <ostream>

namespace leafwright::app {

namespace fs = std::filesystem;

namespace {

using std::chrono::milliseconds;
using std::chrono::steady_clock;

// Long enough for an editor that writes in two goes, short enough not to be felt.
constexpr milliseconds quiet{8};
constexpr milliseconds longest_wait{1000};
constexpr std::size_t most_folders = 200;
constexpr std::size_t most_project_bytes = 64'000'000;

class Watcher {
 public:
  Watcher(const Arguments& arguments, Environment& environment, RenderSettings& settings)
      : arguments_(arguments), environment_(environment), settings_(settings),
        path_(arguments.inputs.at(0)), documents_(arguments.change.make) {
    if (documents_.empty()) documents_.emplace_back("tutorial");
    settings_.cache = &cache_;
    settings_.deflate = pdf::Deflate::Quick;
  }

  int run() {
    if (!folders_.ok()) {
      report("the system gives no more watches (inotify)", environment_);
      return NotWritten;
    }
    watch_folders();
    make_again(steady_clock::now());
    if (!arguments_.quiet)
      environment_.error << fmt::format("Watching {}; stop with Ctrl-C.\n", path_) << std::flush;
    for (;;) {
      const std::vector<std::string> names = folders_.wait(quiet, longest_wait);
      if (!std::any_of(names.begin(), names.end(),
                       [&](const auto& name) { return is_input(name); }))
        continue;
      const auto seen = steady_clock::now();
      watch_folders(); // folders may have come
      if (make_again(seen) && arguments_.change.once) return broken_ ? FoundErrors : Done;
    }
  }

 private:
  // Not what we write ourselves, nor what editors leave about.
  bool is_input(const std::string& name) const {
    const fs::path path(name);
    const std::string file = path.filename().string();
    if (file.starts_with(".") || file.ends_with("~") || file.ends_with(".part")) return false;
    return !written_.contains(path.lexically_normal().string());
  }

  // The project's folder and what lies in it, and the folders of all inputs.
  void watch_folders() {
    const fs::path folder = fs::path(path_).parent_path();
    std::vector<fs::path> open{folder.empty() ? fs::path(".") : folder};
    std::error_code ignored;
    const fs::path out = fs::weakly_canonical(arguments_.out, ignored);
    for (std::size_t i = 0; i < open.size() && i < most_folders; ++i) {
      folders_.add(open[i].string());
      for (const auto& entry : fs::directory_iterator(open[i], ignored))
        if (entry.is_directory(ignored) && !entry.path().filename().string().starts_with(".") &&
            fs::weakly_canonical(entry.path(), ignored) != out)
          open.push_back(entry.path());
    }
    for (const std::string& input : inputs_)
      folders_.add(fs::path(input).parent_path().empty() ? "."
                                                         : fs::path(input).parent_path().string());
  }

  // What a file holds now; one that is missing holds nothing.
  static std::string digest_of(const std::string& input) {
    const FileBytes bytes = disk_access().read(input, most_project_bytes);
    const auto* text = std::get_if<std::string>(&bytes);
    return text ? digest::sha256(*text) : std::string();
  }
  std::map<std::string, std::string> digests() const {
    std::map<std::string, std::string> all;
    for (const std::string& input : inputs_) all[input] = digest_of(input);
    return all;
  }

  // Makes everything again if an input differs. False when nothing did.
  bool make_again(steady_clock::time_point since) {
    // Before anything is read: what is saved meanwhile is another change.
    std::map<std::string, std::string> now = digests();
    if (!broken_ && !inputs_.empty() && now == digests_) return false;
    cache_.next_round();
    ProgressLine line(arguments_, environment_);
    RenderedProject rendered = render_project(path_, documents_, settings_, arguments_, &line);
    line.clear();
    if (!rendered.inputs.empty()) {
      // What a broken state no longer names is waited for all the same.
      if (rendered.stopped)
        rendered.inputs.insert(rendered.inputs.end(), inputs_.begin(), inputs_.end());
      std::sort(rendered.inputs.begin(), rendered.inputs.end());
      rendered.inputs.erase(std::unique(rendered.inputs.begin(), rendered.inputs.end()),
                            rendered.inputs.end());
      inputs_ = rendered.inputs;
    }
    broken_ = rendered.stopped;
    print_findings(rendered.findings, rendered.planned.reading.sources, arguments_, environment_);
    if (rendered.stopped)
      report("the documents stay as they were", environment_);
    else
      write(rendered, since);
    digests_.clear();
    for (const std::string& input : inputs_) {
      const auto known = now.find(input);
      digests_[input] = known != now.end() ? known->second : digest_of(input);
    }
    environment_.out << std::flush;
    environment_.error << std::flush;
    return true;
  }

  void write(RenderedProject& rendered, steady_clock::time_point since) {
    std::error_code ignored;
    std::vector<std::string> targets;
    for (OutputFile& file : rendered.files) {
      const std::string path = (fs::path(arguments_.out) / file.name).string();
      targets.push_back(path);
      std::string& known = written_[fs::path(path).lexically_normal().string()];
      if (known == file.bytes && fs::exists(path, ignored)) continue; // it says so already
      fs::create_directories(fs::path(path).parent_path(), ignored);
      if (const auto fault = file::write_file(path, file.bytes)) {
        report(*fault, environment_);
        continue;
      }
      known = std::move(file.bytes);
      const auto took =
          std::chrono::duration_cast<milliseconds>(steady_clock::now() - since).count();
      if (!arguments_.quiet) environment_.out << fmt::format("{}  {} ms\n", path, took);
    }
    if (!arguments_.depfile.empty())
      if (const auto fault =
              file::write_file(arguments_.depfile, depfile_text(targets, rendered.inputs)))
        report(*fault, environment_);
  }

  const Arguments& arguments_;
  Environment& environment_;
  RenderSettings& settings_;
  DocumentCache cache_;
  std::string path_;
  std::vector<std::string> documents_;
  FolderWatch folders_;
  std::vector<std::string> inputs_;
  std::map<std::string, std::string> digests_; // of the inputs, when last made
  std::map<std::string, std::string> written_; // our own files and what they hold
  bool broken_ = false;
};

} // namespace

int run_watch(const Arguments& arguments, Environment& environment) {
  std::string unknown;
  if (!known_documents(arguments.change.make, unknown)) {
    report(fmt::format("watch: there is no document called {}", unknown), environment);
    return WrongUse;
  }
  std::variant<RenderSettings, int> opened = open_settings(arguments, environment);
  if (const int* code = std::get_if<int>(&opened)) return *code;
  return Watcher(arguments, environment, std::get<RenderSettings>(opened)).run();
}

} // namespace leafwright::app
