#include "app/documents/planned_project.h"
#include "app/documents/rendering.h"
#include "app/documents/session.h"
#include "app/system/diagnostics.h"
#include "app/system/environment.h"
#include "app/verbs/internal/verb_table.h"
#include "language/lists.h"
#include "output/pdf.h"
#include "read/read.h"
#include "records/records.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <map>
#include <ostream>

namespace leafwright::app {

namespace fs = std::filesystem;

namespace {

constexpr std::size_t most_pdf_bytes = 500'000'000; // of a PDF

struct DocumentStatus {
  enum class State { Current, Old, Unknown };
  State state = State::Unknown;
  std::string path, edition, words;
};

std::string_view state_word(DocumentStatus::State state) {
  switch (state) {
  case DocumentStatus::State::Current: return "current";
  case DocumentStatus::State::Old: return "old";
  case DocumentStatus::State::Unknown: break;
  }
  return "unknown";
}

std::string read_whole(const std::string& path) {
  const FileBytes bytes = disk_access().read(path, most_pdf_bytes);
  const auto* text = std::get_if<std::string>(&bytes);
  return text ? *text : std::string();
}

class StatusReader {
 public:
  StatusReader(const RenderSettings& settings, std::vector<std::string> projects)
      : settings_(settings), projects_(std::move(projects)) {}

  DocumentStatus inspect(const std::string& path) {
    DocumentStatus answer;
    answer.path = path;
    const Parsed<provenance::Embedded> read = provenance::read_provenance(read_whole(path));
    if (!read) {
      answer.words = read.parse_error().found;
      return answer;
    }
    if (!(*read).provenance) {
      answer.words = "it does not say what it was made from";
      return answer;
    }
    const provenance::Provenance& from = *(*read).provenance;
    answer.edition = from.edition;
    if (!(*read).digest.empty() && (*read).digest != provenance::content_digest(from)) {
      answer.words = "what it says about itself was tampered with";
      return answer;
    }
    const std::string* project = project_of(from);
    if (!project) {
      answer.words = fmt::format("no project called {} was given", from.project);
      return answer;
    }
    compare(answer, from, *project);
    return answer;
  }

 private:
  const std::string* project_of(const provenance::Provenance& from) {
    for (const std::string& path : projects_) {
      auto [known, fresh] = ids_.try_emplace(path);
      if (fresh) known->second = plan_project(path, {}).reading.project.id;
      if (known->second == from.project) return &path;
    }
    return nullptr;
  }

  void compare(DocumentStatus& answer, const provenance::Provenance& from,
               const std::string& path) {
    std::vector<std::string> settings = from.settings;
    const bool draft = !settings.empty() && settings.back() == "draft";
    if (draft) settings.pop_back();
    PlannedProject planned = plan_project(path, settings);
    const DocumentKind* kind = find_document(from.document);
    if (kind != nullptr && (kind->of_run || kind->of_orders)) take_orders(planned);
    RenderSettings as_then; // what it was told then
    as_then.data_folder = settings_.data_folder;
    as_then.page_template = settings_.page_template;
    as_then.overrides = settings;
    as_then.draft = draft;
    std::string template_name;
    constexpr std::string_view mark = "template ";
    for (const provenance::Input& input : from.inputs)
      if (input.name.starts_with(mark)) template_name = input.name.substr(mark.size());
    const std::string template_file = settings_.page_template.empty()
                                          ? settings_.data_folder + "/templates/" + template_name
                                          : settings_.page_template;
    const provenance::Provenance now =
        provenance_of(planned, as_then, from.document, template_file, read_whole(template_file));
    std::vector<std::string> reasons;
    const auto digest_in = [](const provenance::Provenance& all, const std::string& name) {
      for (const provenance::Input& one : all.inputs)
        if (one.name == name) return one.sha256;
      return std::string();
    };
    for (const provenance::Input& old : from.inputs) {
      const std::string digest = digest_in(now, old.name);
      if (digest.empty())
        reasons.push_back(old.name + " is gone");
      else if (digest != old.sha256)
        reasons.push_back(old.name + " changed");
    }
    for (const provenance::Input& one : now.inputs)
      if (digest_in(from, one.name).empty()) reasons.push_back(one.name + " is new");
    if (from.edition != now.edition)
      reasons.insert(reasons.begin(), fmt::format("edition {} is out", now.edition));
    answer.state = reasons.empty() ? DocumentStatus::State::Current : DocumentStatus::State::Old;
    answer.words = words::series(reasons);
  }

  const RenderSettings& settings_;
  std::vector<std::string> projects_;
  std::map<std::string, std::string> ids_;
};

} // namespace

int run_status(const Arguments& arguments, Environment& environment) {
  std::variant<RenderSettings, int> opened = open_settings(arguments, environment);
  if (const int* code = std::get_if<int>(&opened)) return *code;
  const std::string& folder = arguments.inputs.at(0);
  std::vector<std::string> pdfs;
  std::error_code failed;
  if (fs::is_regular_file(folder, failed)) {
    pdfs.push_back(folder);
  } else {
    failed.clear();
    auto walk = fs::recursive_directory_iterator(
        folder, fs::directory_options::skip_permission_denied, failed);
    for (; !failed && walk != fs::recursive_directory_iterator(); walk.increment(failed))
      if (walk->path().extension() == ".pdf" && walk->is_regular_file())
        pdfs.push_back(walk->path().string());
  }
  if (failed) {
    report(fmt::format("{} cannot be read: {}", folder, failed.message()), environment);
    return NotWritten;
  }
  std::sort(pdfs.begin(), pdfs.end());
  StatusReader reader(std::get<RenderSettings>(opened),
                      {arguments.inputs.begin() + 1, arguments.inputs.end()});
  bool all_current = true;
  ProgressLine line(arguments, environment);
  records::Json json;
  json.open_object().key("schema").number(1).key("documents").open_array();
  for (const std::string& pdf : pdfs) {
    line.show(fmt::format("Reading {}", pdf));
    const DocumentStatus answer = reader.inspect(pdf);
    line.clear(); // the answer may go to the same terminal
    all_current = all_current && answer.state == DocumentStatus::State::Current;
    if (arguments.json()) {
      json.open_object().key("file").text(pdf).key("state").text(state_word(answer.state));
      json.key("edition").text(answer.edition).key("why").text(answer.words).close_object();
    } else {
      environment.out << fmt::format("{:8} {}", state_word(answer.state), pdf);
      if (!answer.edition.empty()) environment.out << fmt::format("  edition {}", answer.edition);
      if (!answer.words.empty()) environment.out << ": " << answer.words;
      environment.out << '\n';
    }
  }
  json.close_array().close_object();
  if (arguments.json()) environment.out << json.take();
  if (!arguments.json() && pdfs.empty())
    environment.out << "There is no PDF below " << folder << '\n';
  return all_current ? Done : FoundErrors;
}

} // namespace leafwright::app
