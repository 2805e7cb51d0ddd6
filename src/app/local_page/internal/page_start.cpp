#include "app/local_page/internal/page.h"
#include "language/words.h"
#include "measure/letters.h"
#include "model/form.h"
#include "output/write_file.h"
#include "text/xml_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <filesystem>
#include <utility>

// A folder without a project: a sample to take apart, or a class of one's own.

namespace leafwright::local_page {

namespace fs = std::filesystem;

namespace {

constexpr std::size_t most_bytes = 32'000'000;

std::optional<std::string> bytes_of(const fs::path& path) {
  FileBytes file = disk_access().read(path.string(), most_bytes);
  if (auto* bytes = std::get_if<std::string>(&file)) return std::move(*bytes);
  return std::nullopt;
}

std::vector<fs::path> sample_folders(const std::string& data_folder) {
  std::vector<fs::path> folders;
  std::error_code ignored;
  for (const auto& entry : fs::directory_iterator(data_folder + "/samples", ignored))
    if (fs::exists(entry.path() / "project.xml", ignored)) folders.push_back(entry.path());
  std::ranges::sort(folders);
  return folders;
}

// Letters and digits of ASCII, the rest becomes one hyphen.
std::string id_from(std::string_view title) {
  std::string id;
  for (const char c : title)
    if (is_letter(c) || (c >= '0' && c <= '9'))
      id += small_letter(c);
    else if (!id.empty() && id.back() != '-')
      id += '-';
  while (!id.empty() && id.back() == '-') id.pop_back();
  return id.empty() || !is_letter(id.front()) ? "class-" + id : id;
}

// Forms that need no more than a closed size.
bool is_simple(const FormRow& form) {
  return form.leaves != FormRow::Leaves::Required && form.kind != Form::Kind::Custom;
}

struct NewClass {
  std::string title, form, size, paper;
  int cards = 1, papers = 3;
};

std::optional<NewClass> class_of(const app::JsonValue& said) {
  NewClass wanted;
  wanted.title = said.text_at("title");
  wanted.form = said.text_at("form");
  wanted.size = said.text_at("size");
  wanted.paper = said.text_at("paper");
  wanted.cards = static_cast<int>(std::clamp(said.number_at("cards").value_or(1), 1.0, 24.0));
  wanted.papers = static_cast<int>(std::clamp(said.number_at("papers").value_or(3), 1.0, 6.0));
  const bool known = std::ranges::any_of(
      form_rows(), [&](const FormRow& row) { return is_simple(row) && row.word == wanted.form; });
  if (wanted.title.empty() || !known || (wanted.paper != "letter" && wanted.paper != "a4"))
    return std::nullopt;
  return wanted;
}

// A base and a mat for each card; papers without pattern, for her to rename.
std::string new_project(const NewClass& wanted) {
  struct Paper {
    std::string_view id, name, colour;
  };
  static constexpr std::array<Paper, 6> papers{{{"kraft", "Kraft", "#cfae83"},
                                                {"cream", "Cream", "#fcf6ea"},
                                                {"moss", "Moss", "#7d9b6d"},
                                                {"sky", "Sky", "#b4ccd4"},
                                                {"rust", "Rust", "#bb5b3b"},
                                                {"plum", "Plum", "#7a5570"}}};
  const bool inch = wanted.paper == "letter";
  const bool folds = wanted.form != "flat" && wanted.form != "tag";
  const bool opens = wanted.form == "gate" || wanted.form == "z"; // a mat would glue it shut
  std::string out = fmt::format(
      "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
      "<project xmlns=\"urn:leafwright:project\" version=\"1\" id=\"{}\" title=\"{}\" "
      "units=\"{}\" paper=\"{}\">\n\n  <supplies>\n",
      id_from(wanted.title), text::xml_text(wanted.title), inch ? "inch" : "mm", wanted.paper);
  for (int i = 0; i < wanted.papers; ++i) {
    const Paper& paper = papers.at(as_index(i));
    out += fmt::format("    <stock id=\"{}\" name=\"{}\" weight=\"{}\" colour=\"{}\" "
                       "sheet=\"{}\"/>\n",
                       paper.id, paper.name, inch ? "80 lb cover" : "220 gsm", paper.colour,
                       inch ? "letter" : "A4");
  }
  out += "    <adhesive id=\"tape\" name=\"Tape runner\" kind=\"tape\"/>\n"
         "    <tool id=\"trimmer\" name=\"Straight trimmer\" risk=\"blade\" for=\"trim\"/>\n";
  if (folds) out += "    <tool id=\"bone-folder\" name=\"Bone folder\" for=\"fold\"/>\n";
  out += "  </supplies>\n";
  for (int i = 0; i < wanted.cards; ++i) {
    const Paper& base = papers.at(as_index(i % wanted.papers));
    const Paper& mat = papers.at(as_index((i + 1) % wanted.papers));
    out += fmt::format("\n  <card id=\"card-{0}\" title=\"Card {0}\" form=\"{1}\" size=\"{2}\">\n"
                       "    <base stock=\"{3}\"/>\n"
                       "    <panel id=\"mat\" name=\"mat\" stock=\"{4}\" on=\"{5}\" "
                       "inset=\"{6}\"/>\n  </card>\n",
                       i + 1, wanted.form, text::xml_text(wanted.size), base.id, mat.id,
                       opens ? "inside" : "front", inch ? "1/8" : "3");
  }
  return out + "</project>\n";
}

} // namespace

Response Page::get_start(const Request&, const app::JsonValue&) {
  Json json(Json::Layout::OneLine);
  const fs::path folder = fs::path(path_).parent_path();
  json.open_object().key("folder").text(folder.empty() ? "this folder"
                                                       : folder.filename().string());
  json.key("samples").open_array();
  for (const fs::path& sample : sample_folders(settings_.data_folder)) {
    const auto bytes = bytes_of(sample / "project.xml");
    if (!bytes) continue;
    const Project project = read_project(*bytes, (sample / "project.xml").string()).project;
    const auto cards = static_cast<std::int64_t>(project.cards.size());
    json.open_object().key("id").text(sample.filename().string());
    json.key("title").text(project.title);
    json.key("words").text(fmt::format("{}{}", words::sentence_case(words::counted(cards, "card")),
                                       project.subtitle.empty() ? "" : ": " + project.subtitle));
    json.close_object();
  }
  json.close_array().key("forms").open_array();
  for (const FormRow& form : form_rows()) {
    if (!is_simple(form)) continue;
    json.open_object().key("id").text(form.word).key("name");
    json.text(words::sentence_case(form.words)).key("sizes").open_array();
    for (const std::string_view size : {"A2", "A6", "A7", "C6", "4 x 6"}) json.text(size);
    json.close_array().close_object();
  }
  json.close_array().key("papers").open_array().text("letter").text("a4").close_array();
  json.close_object();
  Response response;
  response.body = json.take();
  return response;
}

std::optional<Refusal> Page::copy_sample(const std::string& id) {
  for (const fs::path& sample : sample_folders(settings_.data_folder)) {
    if (sample.filename().string() != id) continue;
    // The project and what it names; a file of hers of that name is left as it is.
    const Reading reading = read_project_file((sample / "project.xml").string());
    std::vector<std::string> names;
    if (!reading.project.run.roster.empty()) names.push_back(reading.project.run.roster);
    for (const Picture& picture : reading.project.pictures) names.push_back(picture.path);
    const fs::path folder = fs::path(path_).parent_path();
    std::error_code failed;
    for (const std::string& name : names) {
      if (fs::exists(folder / name, failed)) continue;
      const auto bytes = bytes_of(sample / name);
      fs::create_directories((folder / name).parent_path(), failed);
      if (!bytes || file::write_file((folder / name).string(), *bytes))
        return Refusal{fmt::format("{} could not be written.", name), "Look at the folder.", 500};
    }
    const auto bytes = bytes_of(sample / "project.xml");
    return begin_with(bytes.value_or(std::string()));
  }
  return Refusal{"There is no such sample.", "Choose one of the list.", 404};
}

std::optional<Refusal> Page::begin_with(const std::string& bytes) {
  if (const auto fault = file::write_file(path_, bytes))
    return Refusal{fmt::format("The project could not be written: {}.", fault->found), fault->fix,
                   500};
  session_ = Session(bytes);
  begun_ = true;
  show_now();
  last_readable_ = shown_;
  return std::nullopt;
}

Response Page::start(const Request&, const app::JsonValue& body) {
  std::error_code ignored;
  if (begun_ || fs::exists(path_, ignored))
    return refusal(409, "There is a project here already.", "Open another folder.");
  std::optional<Refusal> no;
  if (const std::string sample = body.text_at("sample"); !sample.empty()) {
    no = copy_sample(sample);
  } else {
    const app::JsonValue* said = body.find("new");
    const auto wanted = said != nullptr ? class_of(*said) : std::nullopt;
    if (!wanted)
      return refusal(400, "Something is missing.", "Give it a title, a form, a size and a paper.");
    const std::string bytes = new_project(*wanted);
    const Reading reading = read_project(bytes, path_);
    if (!reading.ok()) {
      const Finding& first = reading.findings.front();
      return refusal(422, first.found, first.fix);
    }
    no = begin_with(bytes);
  }
  if (no) return refusal(no->status, no->error, no->fix);
  tell_project();
  return project_answer(true);
}

} // namespace leafwright::local_page
