#include "app/local_page/internal/guard.h"
#include "app/local_page/internal/page.h"
#include "app/system/operating_system.h"
#include "output/write_file.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <filesystem>
#include <utility>

// What takes long: documents, and the facts that need the plan of the whole batch.

namespace leafwright::local_page {

namespace fs = std::filesystem;

namespace {

constexpr double pause_before_facts = 0.4; // seconds without a change
constexpr std::size_t most_jobs = 200;     // remembered

std::string_view type_of(std::string_view name) {
  static constexpr std::array<std::pair<std::string_view, std::string_view>, 8> types{{
      {".pdf", "application/pdf"},
      {".html", "text/html; charset=utf-8"},
      {".csv", "text/csv; charset=utf-8"},
      {".json", "application/json"},
      {".svg", "image/svg+xml"},
      {".png", "image/png"},
      {".ics", "text/calendar; charset=utf-8"},
      {".txt", "text/plain; charset=utf-8"},
  }};
  for (const auto& [end, type] : types)
    if (name.ends_with(end)) return type;
  return "application/octet-stream";
}

} // namespace

void Page::ask_for_facts() {
  if (fact_work_ != 0) work_.stop(fact_work_);
  fact_work_ = 0;
  facts_asked_for_ = shown_->revision;
  if (!shown_->readable()) return;
  fact_work_ = work_.begin(fact_order_words(path_, session_.now().bytes),
                           {[this, revision = shown_->revision](std::string_view message) {
                              heard_facts(revision, message);
                            },
                            [] {}});
}

void Page::heard_facts(const std::string& revision, std::string_view message) {
  WorkMessage said = message_of(message);
  if (said.what != WorkMessage::What::Facts) return;
  const std::lock_guard lock(busy_);
  if (revision != shown_->revision) return;
  facts_of_ = revision;
  slow_facts_ = std::move(said.facts);
  slow_findings_ = std::move(said.findings);
  Json json(Json::Layout::OneLine);
  json.open_object().key("rev").text(revision).key("facts");
  std::vector<FactRow> facts = quick_facts(*shown_);
  facts.insert(facts.end(), slow_facts_.begin(), slow_facts_.end());
  write_facts(json, facts);
  json.key("findings");
  write_findings(json, *shown_, slow_findings_);
  json.close_object();
  std::string words = json.take();
  words.pop_back(); // its line end
  events_.tell("facts", words);
}

void Page::look_round(double now) {
  const std::lock_guard lock(busy_);
  look_at_file();
  if (facts_asked_for_ != shown_->revision && now - changed_at_ > pause_before_facts)
    ask_for_facts();
}

Response Page::make(const Request&, const app::JsonValue& body) {
  DocumentOrder order;
  order.path = path_;
  order.bytes = session_.now().bytes;
  order.names = {body.text_at("document")};
  if (order.names.front() == "all") {
    order.names.clear();
    for (const app::DocumentKind& kind : app::document_kinds())
      if (!kind.on_request) order.names.emplace_back(kind.verb);
  } else if (app::find_document(order.names.front()) == nullptr) {
    return refusal(404, "There is no document of this name.", "Choose one of the list.");
  }
  if (const app::JsonValue* options = body.find("options")) {
    order.tier = options->text_at("tier");
    order.paper = options->text_at("paper");
    order.grey = options->truth_at("grey");
  }
  while (jobs_.size() >= most_jobs) jobs_.erase(jobs_.begin());
  const std::string id = fmt::format("{:06}-{}", next_job_++, random_digits(8));
  Job& job = jobs_[id];
  job.work = work_.begin(order_words(order),
                         {[this, id](std::string_view message) { heard_job(id, message); },
                          [this, id] { job_ended(id); }});
  if (job.work == 0) {
    jobs_.erase(id);
    return refusal(503, "The system gives no more processes.", "Close something and try again.");
  }
  Json json(Json::Layout::OneLine);
  json.open_object().key("job").text(id).close_object();
  Response response;
  response.body = json.take();
  return response;
}

// Into out/ beside the project, as the command line would with -o out.
void Page::keep_file(Job& job, const app::OutputFile& file) {
  const fs::path folder = fs::path(path_).parent_path();
  const fs::path path = folder / "out" / file.name;
  std::error_code failed;
  fs::create_directories(path.parent_path(), failed);
  // Links may not lead out of the maker's folder.
  const FileAccess files = disk_access();
  const std::string home = files.real_path(folder.empty() ? "." : folder.string());
  if (!lies_inside(files.real_path(path.parent_path().string()), home)) {
    job.state = "failed";
    job.words = "The folder out leads to another place: nothing was written.";
    return;
  }
  if (const auto fault = file::write_file(path.string(), file.bytes)) {
    job.state = "failed";
    job.words = fmt::format("{} could not be written: {}", file.name, fault->found);
    return;
  }
  Job::Made made{random_digits(12), file.name, path.string(), std::string(type_of(file.name)),
                 file.bytes.size()};
  files_[made.id] = made;
  job.files.push_back(std::move(made));
}

void Page::tell_job(const std::string& id, const Job& job) {
  Json json(Json::Layout::OneLine);
  json.open_object().key("id").text(id).key("state").text(job.state);
  json.key("done").number(job.done).key("of").number(job.of).key("words").text(job.words);
  json.close_object();
  std::string words = json.take();
  words.pop_back(); // its line end
  events_.tell("job", words);
}

void Page::heard_job(const std::string& id, std::string_view message) {
  const WorkMessage said = message_of(message);
  const std::lock_guard lock(busy_);
  const auto found = jobs_.find(id);
  if (found == jobs_.end() || found->second.state == "cancelled") return;
  Job& job = found->second;
  if (job.state == "waiting") job.state = "working";
  if (said.what == WorkMessage::What::Error) {
    job.state = "failed";
    job.words = said.words;
  } else if (said.what == WorkMessage::What::File && job.state == "working") {
    keep_file(job, said.file);
  } else if (said.what == WorkMessage::What::Progress && job.state == "working") {
    job.done = std::max(job.done, said.done);
    job.of = said.of;
    job.words = said.words;
  }
  tell_job(id, job);
}

void Page::job_ended(const std::string& id) {
  const std::lock_guard lock(busy_);
  const auto found = jobs_.find(id);
  if (found == jobs_.end()) return;
  Job& job = found->second;
  if (job.state == "working" && job.of > 0 && job.done >= job.of) {
    job.state = "done";
  } else if (job.state == "working" || job.state == "waiting") {
    job.state = "failed";
    job.words = "The work ended before it was done.";
  }
  tell_job(id, job);
}

Response Page::get_job(const Request& request, const app::JsonValue&) {
  const auto found = jobs_.find(request.path.substr(std::string_view("/api/job/").size()));
  if (found == jobs_.end()) return refusal(404, "This work is not known.", "Make it again.");
  const Job& job = found->second;
  Json json(Json::Layout::OneLine);
  json.open_object().key("state").text(job.state).key("done").number(job.done);
  json.key("of").number(job.of).key("words").text(job.words).key("files").open_array();
  for (const Job::Made& made : job.files) {
    json.open_object().key("id").text(made.id).key("name").text(made.name);
    json.key("type").text(made.type).key("bytes").number(static_cast<std::int64_t>(made.bytes));
    json.close_object();
  }
  json.close_array().close_object();
  Response response;
  response.body = json.take();
  return response;
}

Response Page::change_job(const Request& request, const app::JsonValue& body) {
  const std::string rest = request.path.substr(std::string_view("/api/job/").size());
  const std::size_t slash = std::min(rest.find('/'), rest.size());
  const auto found = jobs_.find(rest.substr(0, slash));
  if (found == jobs_.end()) return refusal(404, "This work is not known.", "Make it again.");
  Job& job = found->second;
  const std::string_view what = std::string_view(rest).substr(slash);
  Request asked = request;
  asked.path = "/api/job/" + found->first;
  if (what == "/cancel") {
    if (job.state == "waiting" || job.state == "working") {
      job.state = "cancelled";
      work_.stop(job.work);
      tell_job(found->first, job);
    }
    return get_job(asked, body);
  }
  if (what == "/folder") {
    const fs::path folder = fs::path(path_).parent_path() / "out";
    if (!app::open_with_system(folder.string()))
      return refusal(501, "This machine has no window for folders that could be opened.",
                     fmt::format("The files are in {}.", folder.string()));
    return get_job(asked, body);
  }
  return refusal(404, "There is nothing at this address.", "Go back to the page.");
}

Response Page::get_file(const Request& request, const app::JsonValue&) {
  const auto found = files_.find(request.path.substr(std::string_view("/api/file/").size()));
  if (found == files_.end()) return refusal(404, "This file is not known.", "Make it again.");
  constexpr std::size_t most = 512'000'000;
  FileBytes file = disk_access().read(found->second.path, most);
  auto* bytes = std::get_if<std::string>(&file);
  if (bytes == nullptr) return refusal(410, "This file is not there any more.", "Make it again.");
  Response response;
  response.type = found->second.type;
  response.body = std::move(*bytes);
  // The browser's own viewer of PDF is part of the page; a web page of ours brings its own style
  // and runs nothing.
  const bool pdf = response.type == "application/pdf";
  response.headers = {{"Content-Security-Policy",
                       pdf ? "frame-ancestors 'self'"
                           : "default-src 'none'; style-src 'unsafe-inline'; img-src 'self' data:; "
                             "font-src data:; sandbox; frame-ancestors 'self'"}};
  const fs::path name = fs::path(found->second.name).filename();
  response.headers.emplace_back("Content-Disposition",
                                fmt::format("inline; filename=\"{}\"", name.string()));
  return response;
}

} // namespace leafwright::local_page
