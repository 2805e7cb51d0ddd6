#include "texts.h"

#include "app/documents/session.h"
#include "app/local_page/internal/page.h"
#include "app/system/environment.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <memory>
#include <sstream>
#include <string>

#include <unistd.h>

// The page's answers, without a network.

using namespace leafwright;
using namespace leafwright::local_page;
using namespace leafwright::test;
namespace fs = std::filesystem;

namespace {

// The smallest sample in a folder of its own, opened as often as one likes.
class Desk {
 public:
  Desk() : folder_(fs::temp_directory_path() / ("leafwright-page-" + std::to_string(::getpid()))) {
    fs::create_directories(folder_);
    fs::copy_file(LEAFWRIGHT_SOURCE_DIR "/samples/five-minute/project.xml", path(),
                  fs::copy_options::overwrite_existing);
    app::Environment environment{words_, words_};
    environment.data = LEAFWRIGHT_SOURCE_DIR;
    auto opened = app::open_settings({}, environment);
    settings_ =
        std::make_unique<app::RenderSettings>(std::get<app::RenderSettings>(std::move(opened)));
    work_ = std::make_unique<WorkProcess>(
        [this](const std::string& order, const WorkProcess::Tell& tell) {
          do_order(order, tell, *settings_);
        });
    open();
  }
  ~Desk() {
    work_.reset();
    page_.reset();
    fs::remove_all(folder_);
  }
  Desk(const Desk&) = delete;
  Desk& operator=(const Desk&) = delete;

  void open() { page_ = std::make_unique<Page>(path().string(), *settings_, *work_, events_); }
  fs::path path() const { return folder_ / "project.xml"; }
  std::string file() const {
    std::ifstream in(path(), std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
  }
  void write(const std::string& bytes) const { std::ofstream(path(), std::ios::binary) << bytes; }
  // As the watch does a few times a second.
  void look() { page_->look_round(0); }

  Response get(const std::string& path, const std::string& mark = {}) {
    Request request;
    request.method = "GET";
    request.path = path;
    request.known_mark = mark;
    return page_->answer(request);
  }
  Response post(const std::string& path, const std::string& body) {
    Request request;
    request.method = "POST";
    request.path = path;
    request.body = body;
    return page_->answer(request);
  }
  app::JsonValue project() {
    return app::parse_json(get("/api/project").body).value_or(app::JsonValue{});
  }
  // An edit of one attribute of the first element of that name.
  Response set(const std::string& tag, const std::string& name, const std::string& value,
               const std::string& more = {}, const std::string& id = {}) {
    const app::JsonValue whole = project();
    return post("/api/edit", "{\"edits\":[{\"op\":\"set\",\"key\":\"" +
                                 key_in(*whole.find("elements"), tag, id) + "\",\"attribute\":\"" +
                                 name + "\",\"value\":\"" + value + "\"}]" + more + "}");
  }
  static std::string key_in(const app::JsonValue& element, const std::string& tag,
                            const std::string& id) {
    if (element.text_at("tag") == tag && (id.empty() || element.text_at("id") == id))
      return element.text_at("key");
    for (const app::JsonValue& child : element.find("children")->list)
      if (std::string key = key_in(child, tag, id); !key.empty()) return key;
    return {};
  }

 private:
  fs::path folder_;
  std::ostringstream words_;
  std::unique_ptr<app::RenderSettings> settings_;
  Events events_;
  std::unique_ptr<WorkProcess> work_;
  std::unique_ptr<Page> page_;
};

} // namespace

TEST_CASE("a change is made, undone and saved; of the file nothing else changes") {
  Desk desk;
  const std::string before = desk.file();
  REQUIRE(desk.set("card", "title", "Another title").status == 200);
  CHECK(desk.file() == before); // not yet
  CHECK(desk.project().truth_at("unsaved"));
  REQUIRE(desk.post("/api/undo", "{}").status == 200);
  CHECK_FALSE(desk.project().truth_at("unsaved"));
  REQUIRE(desk.post("/api/redo", "{}").status == 200);
  REQUIRE(desk.post("/api/save", "{}").status == 200);
  const std::string after = desk.file();
  const std::size_t at = after.find("Another title");
  REQUIRE(at != std::string::npos);
  CHECK(after.substr(0, at) == before.substr(0, at));
  CHECK(after.substr(after.size() - 200) == before.substr(before.size() - 200));
}

TEST_CASE("a preview tells what would follow and changes nothing") {
  Desk desk;
  const std::string rev = desk.project().text_at("rev");
  const Response seen = desk.set("panel", "inset", "1/4", ",\"preview\":true");
  REQUIRE(seen.status == 200);
  CHECK_FALSE(app::parse_json(seen.body)->find("follows")->list.empty());
  CHECK(desk.project().text_at("rev") == rev);
  CHECK_FALSE(desk.project().truth_at("unsaved"));
}

TEST_CASE("a kill loses nothing: what was not saved comes back") {
  Desk desk;
  REQUIRE(desk.set("card", "title", "Not saved").status == 200);
  const std::string rev = desk.project().text_at("rev");
  desk.open(); // as another start would
  CHECK(desk.project().text_at("rev") == rev);
  CHECK(desk.project().truth_at("unsaved"));
  REQUIRE(desk.post("/api/undo", "{}").status == 200);
  CHECK_FALSE(desk.project().truth_at("unsaved"));
}

TEST_CASE("what an editor saves is seen, and put together with what is not saved yet") {
  Desk desk;
  REQUIRE(desk.set("card", "title", "Mine").status == 200);
  desk.write(with(desk.file(), "<project ", "<project level=\"easy\" "));
  desk.look();
  REQUIRE(desk.post("/api/save", "{}").status == 200);
  CHECK(desk.file().find("level=\"easy\"") != std::string::npos);
  CHECK(desk.file().find("title=\"Mine\"") != std::string::npos);
}

TEST_CASE("two values for one place are shown and never overwritten") {
  Desk desk;
  REQUIRE(desk.set("card", "minutes", "11").status == 200);
  const std::size_t at = desk.file().find("minutes=\"");
  REQUIRE(at != std::string::npos);
  const std::string old = desk.file().substr(at, desk.file().find('"', at + 9) + 1 - at);
  const std::string theirs = with(desk.file(), old, "minutes=\"22\"");
  desk.write(theirs);
  const Response refused = desk.post("/api/save", "{}");
  REQUIRE(refused.status == 409);
  CHECK(app::parse_json(refused.body)->find("theirs")->list.front().text_at("after") == "22");
  CHECK(desk.file() == theirs);
  SUBCASE("mine") {
    REQUIRE(desk.post("/api/resolve", "{\"take\":\"mine\"}").status == 200);
    REQUIRE(desk.post("/api/save", "{}").status == 200);
    CHECK(desk.file() == with(theirs, "minutes=\"22\"", "minutes=\"11\""));
  }
  SUBCASE("theirs") {
    REQUIRE(desk.post("/api/resolve", "{\"take\":\"theirs\"}").status == 200);
    CHECK_FALSE(desk.project().truth_at("unsaved"));
    REQUIRE(desk.post("/api/undo", "{}").status == 200); // mine can be had back
    CHECK(desk.get("/api/project").body.find("\"minutes\",\"11\"") != std::string::npos);
  }
}

TEST_CASE("pictures group what belongs to one thing, and are known again") {
  Desk desk;
  const app::JsonValue card = desk.project().find("cards")->list.front();
  const std::string path = "/api/picture/" + card.text_at("id") + "/front.svg";
  const Response first = desk.get(path);
  REQUIRE(first.status == 200);
  for (const app::JsonValue& thing : card.find("things")->list)
    if (thing.text_at("view") == "front")
      CHECK_MESSAGE(first.body.find("data-thing=\"" + thing.text_at("key") + "\"") !=
                        std::string::npos,
                    thing.text_at("name"));
  const std::string mark = first.headers.front().second;
  CHECK(desk.get(path, mark).status == 304);
  REQUIRE(desk.set("panel", "inset", "1/4").status == 200);
  CHECK(desk.get(path, mark).status == 200);
}

TEST_CASE("a finding whose number is known is mended by it") {
  Desk desk;
  REQUIRE(desk.set("panel", "size", "6 x 1 1/4", "", "label").status == 200);
  const app::JsonValue project = desk.project();
  const std::vector<app::JsonValue>& findings = project.find("findings")->list;
  const auto found = std::ranges::find_if(
      findings, [](const app::JsonValue& one) { return one.truth_at("mend"); });
  REQUIRE(found != findings.end());
  const std::string rule = found->text_at("rule");
  REQUIRE(desk.post("/api/edit", "{\"edits\":[{\"op\":\"fix\",\"finding\":" +
                                     std::to_string(found - findings.begin()) + "}]}")
              .status == 200);
  const app::JsonValue now = desk.project();
  for (const app::JsonValue& one : now.find("findings")->list) CHECK(one.text_at("rule") != rule);
}

TEST_CASE("a name that is misspelt is mended by the one that was meant") {
  Desk desk;
  const std::string before = desk.file();
  REQUIRE(desk.set("panel", "stock", "chekcs").status == 200);
  const app::JsonValue project = desk.project();
  CHECK(project.truth_at("stale")); // pictures are of the last state that could be read
  const std::vector<app::JsonValue>& findings = project.find("findings")->list;
  const auto found = std::ranges::find_if(
      findings, [](const app::JsonValue& one) { return one.truth_at("mend"); });
  REQUIRE(found != findings.end());
  REQUIRE(desk.post("/api/edit", "{\"edits\":[{\"op\":\"fix\",\"finding\":" +
                                     std::to_string(found - findings.begin()) + "}]}")
              .status == 200);
  REQUIRE(desk.post("/api/save", "{}").status == 200);
  CHECK(desk.file() == before);
}

TEST_CASE("orders are dropped, given headings and mended, cell by cell") {
  Desk desk;
  CHECK(app::parse_json(desk.get("/api/orders").body)->find("rows")->list.empty());
  const Response dropped = desk.post("/api/orders/drop", R"({"name":"../../from shop.csv",)"
                                                         R"("csv":"Full name,Plan,Mood\r\n)"
                                                         R"(\"A, b\",x,fine\r\n"})");
  REQUIRE(dropped.status == 200);
  const fs::path list = desk.path().parent_path() / "from-shop.csv";
  REQUIRE(fs::exists(list));
  const auto bytes = [&] {
    std::ifstream in(list, std::ios::binary);
    return std::string{std::istreambuf_iterator<char>(in), {}};
  };
  const auto set = [&](const std::string& cell) {
    return desk.post("/api/orders/set", "{" + cell + "}").status;
  };
  REQUIRE(
      desk.post("/api/orders/map", R"({"mapping":{"Full name":"name","Plan":"tier"}})").status ==
      200);
  CHECK(bytes() == "Full name,tier,Mood\r\n\"A, b\",x,fine\r\n");
  REQUIRE(set(R"("line":2,"field":"tier","value":"say \"full\"")") == 200);
  CHECK(bytes() == "Full name,tier,Mood\r\n\"A, b\",\"say \"\"full\"\"\",fine\r\n");
  REQUIRE(set(R"("line":2,"field":"status","value":"paid")") == 200);
  CHECK(bytes() == "Full name,tier,Mood,status\r\n\"A, b\",\"say \"\"full\"\"\",fine,paid\r\n");
  CHECK(set(R"("line":9,"field":"tier","value":"x")") == 409);
  CHECK(desk.post("/api/orders/map", R"({"mapping":{"Mood":"colour"}})").status == 400);
}

TEST_CASE("an empty folder begins a class whose every form can be read") {
  for (const char* form : {"top-fold", "side-fold", "tent", "gate", "z", "flat", "tag"})
    for (const char* paper : {"letter", "a4"}) {
      CAPTURE(form);
      Desk desk;
      fs::remove(desk.path());
      desk.open();
      CHECK(app::parse_json(desk.get("/api/project").body)->truth_at("start"));
      const Response begun = desk.post(
          "/api/start", std::string("{\"new\":{\"title\":\"Fog & Fern\",\"cards\":2,\"form\":\"") +
                            form + "\",\"size\":\"A2\",\"papers\":3,\"paper\":\"" + paper + "\"}}");
      REQUIRE(begun.status == 200);
      const app::JsonValue project = desk.project();
      CHECK(project.text_at("title") == "Fog & Fern");
      CHECK(project.find("cards")->list.size() == 2);
      CHECK(project.find("findings")->list.empty());
      CHECK(desk.post("/api/start", "{\"sample\":\"five-minute\"}").status == 409);
    }
}

TEST_CASE("an empty folder begins with a copy of a sample") {
  Desk desk;
  fs::remove(desk.path());
  desk.open();
  const app::JsonValue start =
      app::parse_json(desk.get("/api/start").body).value_or(app::JsonValue{});
  CHECK(start.find("samples")->list.size() == 3);
  CHECK(desk.post("/api/start", "{\"sample\":\"../orchard-gate\"}").status == 404);
  REQUIRE(desk.post("/api/start", "{\"sample\":\"orchard-gate\"}").status == 200);
  CHECK(desk.file().find("id=\"orchard-gate\"") != std::string::npos);
  CHECK_FALSE(app::parse_json(desk.get("/api/orders").body)->find("rows")->list.empty());
}

TEST_CASE("a document is made in a process of its own and had by its id alone") {
  Desk desk;
  const Response begun = desk.post("/api/make", "{\"document\":\"run-sheet\"}");
  REQUIRE(begun.status == 200);
  const std::string job = "/api/job/" + app::parse_json(begun.body)->text_at("job");
  app::JsonValue state;
  for (int i = 0; i < 600; ++i) {
    state = app::parse_json(desk.get(job).body).value_or(app::JsonValue{});
    if (state.text_at("state") != "waiting" && state.text_at("state") != "working") break;
    ::usleep(100'000);
  }
  REQUIRE_MESSAGE(state.text_at("state") == "done", state.text_at("words"));
  const app::JsonValue& made = state.find("files")->list.front();
  const Response file = desk.get("/api/file/" + made.text_at("id"));
  CHECK(file.type == "application/pdf");
  CHECK(file.body.starts_with("%PDF"));
  for (const char* id : {"", "../project.xml", "..%2fproject.xml", "/etc/passwd"})
    CHECK(desk.get(std::string("/api/file/") + id).status == 404);
}

TEST_CASE("what is not understood is refused and changes nothing") {
  Desk desk;
  const std::string rev = desk.project().text_at("rev");
  for (const char* body : {"", "[]", "{", "{\"edits\":7}", "{\"edits\":[{\"op\":\"run\"}]}",
                           "{\"edits\":[{\"op\":\"set\",\"key\":\"k99999\"}]}",
                           "{\"edits\":[{\"op\":\"remove\",\"key\":\"-1\"}]}"})
    CHECK_MESSAGE(desk.post("/api/edit", body).status >= 400, body);
  CHECK(desk.get("/api/nothing").status == 404);
  CHECK(desk.get("/api/picture/../x.svg").status == 404);
  CHECK(desk.project().text_at("rev") == rev);
}
