#pragma once

#include "app/documents/documents.h"
#include "app/local_page/internal/answers.h"
#include "app/local_page/internal/edit_session.h"
#include "app/local_page/internal/events.h"
#include "app/local_page/internal/exchange.h"
#include "app/local_page/internal/shown_project.h"
#include "app/local_page/internal/unsaved_log.h"
#include "app/local_page/internal/views.h"
#include "app/local_page/internal/work_orders.h"
#include "app/local_page/internal/work_process.h"

#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

// One project and all that its page asks. Requests come from many threads and are answered one at
// a time; what takes long goes to a process of its own.

namespace leafwright::local_page {

// A document, or several, being made.
struct Job {
  int work = 0; // of the WorkProcess
  std::string state = "waiting", words;
  std::int64_t done = 0, of = 0;
  struct Made {
    std::string id, name, path, type;
    std::size_t bytes = 0;
  };
  std::vector<Made> files;
};

class Page {
 public:
  // `path` of a project file. `settings` outlive it.
  Page(std::string path, const app::RenderSettings& settings, WorkProcess& work, Events& events);

  Response answer(const Request& request);
  // A few times a second: has the file changed, is there time for what takes long?
  void look_round(double now);

 private:
  using Handler = Response (Page::*)(const Request&, const app::JsonValue&);
  struct Route {
    std::string_view method, path; // a path that ends in / has more behind it
    Handler handler;
  };
  static const std::vector<Route>& routes();

  Response get_project(const Request& request, const app::JsonValue& body);
  Response get_card_picture(const Request& request, const app::JsonValue& body);
  Response get_sheet_picture(const Request& request, const app::JsonValue& body);
  Response edit(const Request& request, const app::JsonValue& body);
  Response undo(const Request& request, const app::JsonValue& body);
  Response redo(const Request& request, const app::JsonValue& body);
  Response save(const Request& request, const app::JsonValue& body);
  Response resolve(const Request& request, const app::JsonValue& body);
  Response make(const Request& request, const app::JsonValue& body);
  Response get_job(const Request& request, const app::JsonValue& body);
  Response change_job(const Request& request, const app::JsonValue& body);
  Response get_file(const Request& request, const app::JsonValue& body);
  Response get_orders(const Request& request, const app::JsonValue& body);
  Response map_orders(const Request& request, const app::JsonValue& body);
  Response set_order(const Request& request, const app::JsonValue& body);
  Response drop_orders(const Request& request, const app::JsonValue& body);
  Response get_start(const Request& request, const app::JsonValue& body);
  Response start(const Request& request, const app::JsonValue& body);

  Response preview(const std::vector<Wish>& wishes);
  std::optional<Refusal> settle_fixes(std::vector<Wish>& wishes) const;
  std::variant<std::vector<Wish>, Refusal> mends_of(std::size_t finding) const;
  Response picture_answer(const Request& request, const std::optional<PagePicture>& picture);
  Response project_answer(bool with_tags = false);
  // The project with what came of a change, or would come of it.
  Response change_answer(const Session& session, const Shown& before, const ShownPtr& after,
                         const std::vector<edit::Written>& written);
  void write_project_of(Json& json, const Session& session, const ShownPtr& shown, bool with_tags);
  // After every change of the bytes: what follows from them.
  void show_now();
  void take_change(); // keeps what is new, shows it and tells of it
  void keep_news();
  void keep_whole();
  void tell_project();
  void look_at_file();
  void took_from_outside(const std::string& theirs);
  void ask_for_facts();
  void heard_facts(const std::string& revision, std::string_view message);
  void heard_job(const std::string& id, std::string_view message);
  void job_ended(const std::string& id);
  void tell_job(const std::string& id, const Job& job);
  void keep_file(Job& job, const app::OutputFile& file);
  std::string roster_path() const; // empty when there is none inside the maker's folder
  template <class Change>
  Response change_orders(Change change);
  std::optional<Refusal> copy_sample(const std::string& id);
  std::optional<Refusal> begin_with(const std::string& bytes);
  double now() const;

  std::string path_;
  const app::RenderSettings& settings_;
  WorkProcess& work_;
  Events& events_;

  std::mutex busy_;
  bool begun_ = false; // there is a project
  Session session_;
  UnsavedLog log_;
  bool kept_ = true; // what is not saved is safe there
  supply::PlanCache plans_;
  PictureCache pictures_;
  StepCache steps_;
  ShownPtr shown_, last_readable_;
  // What somebody else wrote, which we could not put together with what is not saved yet.
  std::optional<std::string> theirs_;
  double changed_at_ = 0;
  int fact_work_ = 0;
  std::string facts_asked_for_, facts_of_; // revisions
  std::vector<FactRow> slow_facts_;
  Findings slow_findings_;
  std::map<std::string, Job> jobs_;
  std::map<std::string, Job::Made> files_; // by id
  int next_job_ = 1;
};

} // namespace leafwright::local_page
