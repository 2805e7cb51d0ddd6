#include "app/documents/planned_project.h"
#include "app/documents/rendering.h"
#include "app/documents/session.h"
#include "app/system/diagnostics.h"
#include "app/system/environment.h"
#include "app/system/json_value.h"
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
    const std::string* project = project_of(from.project);
    if (!project) {
      answer.words = fmt::format("no project called {} was given", from.project);
      return answer;
    }
    compare(answer, from, *project);
    return answer;
  }

  // Texts to post say beside them which project they were made from. A text is old when other words
  // would be made now: a price, a date, an amount or its template has changed.
  std::vector<DocumentStatus> inspect_texts(const std::string& made_for) {
    DocumentStatus answer;
    answer.path = made_for;
    const std::optional<JsonValue> said = parse_json(read_whole(made_for));
    if (!said || said->find("texts") == nullptr) {
      answer.words = "it does not say what the texts were made from";
      return {answer};
    }
    const std::string id = said->text_at("project");
    const std::string* project = project_of(id);
    if (!project) {
      answer.words = fmt::format("no project called {} was given", id);
      return {answer};
    }
    PlannedProject planned = plan_project(*project, {});
    const std::vector<std::string> names{"announcements"};
    plan_for(names, planned, {});
    const RenderedDocument now = render_documents(names, planned, settings_);
    std::vector<DocumentStatus> answers;
    for (const JsonValue& text : said->find("texts")->list)
      answers.push_back(
          text_status(made_for, text.text_at("file"), planned.reading.project.edition, now));
    return answers;
  }

 private:
  static DocumentStatus text_status(const std::string& made_for, const std::string& file,
                                    int edition, const RenderedDocument& now) {
    DocumentStatus answer;
    answer.path = (fs::path(made_for).parent_path() / fs::path(file).filename()).string();
    const auto made = std::ranges::find_if(now.files, [&](const OutputFile& one) {
      return fs::path(one.name).filename() == fs::path(file).filename();
    });
    answer.state = DocumentStatus::State::Old;
    if (made == now.files.end())
      answer.words = "it is not made any more";
    else if (made->bytes != read_whole(answer.path))
      answer.words = fmt::format("edition {} says it in other words", edition);
    else
      answer.state = DocumentStatus::State::Current;
    return answer;
  }

  const std::string* project_of(const std::string& id) {
    for (const std::string& path : projects_) {
      auto [known, fresh] = ids_.try_emplace(path);
      if (fresh) known->second = plan_project(path, {}).reading.project.id;
      if (known->second == id) return &path;
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

constexpr std::string_view texts_made_for = "made-for.json";

// PDFs, and what lies beside texts to post.
std::vector<std::string> files_to_judge(const std::string& folder, std::error_code& failed) {
  if (fs::is_regular_file(folder, failed)) return {folder};
  failed.clear();
  std::vector<std::string> files;
  auto walk = fs::recursive_directory_iterator(
      folder, fs::directory_options::skip_permission_denied, failed);
  for (; !failed && walk != fs::recursive_directory_iterator(); walk.increment(failed))
    if ((walk->path().extension() == ".pdf" || walk->path().filename() == texts_made_for) &&
        walk->is_regular_file())
      files.push_back(walk->path().string());
  std::sort(files.begin(), files.end());
  return files;
}

void tell(const DocumentStatus& answer, records::Json& json) {
  json.open_object().key("file").text(answer.path).key("state").text(state_word(answer.state));
  json.key("edition").text(answer.edition).key("why").text(answer.words).close_object();
}

void tell(const DocumentStatus& answer, std::ostream& out) {
  out << fmt::format("{:8} {}", state_word(answer.state), answer.path);
  if (!answer.edition.empty()) out << fmt::format("  edition {}", answer.edition);
  if (!answer.words.empty()) out << ": " << answer.words;
  out << '\n';
}

} // namespace

int run_status(const Arguments& arguments, Environment& environment) {
  std::variant<RenderSettings, int> opened = open_settings(arguments, environment);
  if (const int* code = std::get_if<int>(&opened)) return *code;
  const std::string& folder = arguments.inputs.at(0);
  std::error_code failed;
  const std::vector<std::string> files = files_to_judge(folder, failed);
  if (failed) {
    report(fmt::format("{} cannot be read: {}", folder, failed.message()), environment);
    return NotWritten;
  }
  StatusReader reader(std::get<RenderSettings>(opened),
                      {arguments.inputs.begin() + 1, arguments.inputs.end()});
  bool all_current = true;
  ProgressLine line(arguments, environment);
  records::Json json;
  json.open_object().key("schema").number(1).key("documents").open_array();
  for (const std::string& file : files) {
    line.show(fmt::format("Reading {}", file));
    const bool texts = fs::path(file).filename() == texts_made_for;
    const std::vector<DocumentStatus> answers =
        texts ? reader.inspect_texts(file) : std::vector{reader.inspect(file)};
    line.clear(); // the answers may go to the same terminal
    for (const DocumentStatus& answer : answers) {
      all_current = all_current && answer.state == DocumentStatus::State::Current;
      if (arguments.json())
        tell(answer, json);
      else
        tell(answer, environment.out);
    }
  }
  json.close_array().close_object();
  if (arguments.json()) environment.out << json.take();
  if (!arguments.json() && files.empty())
    environment.out << "There is no PDF below " << folder << ", and no text to post\n";
  return all_current ? Done : FoundErrors;
}

} // namespace leafwright::app
