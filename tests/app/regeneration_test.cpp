#include "app/documents/documents.h"
#include "app/documents/session.h"
#include "app/system/environment.h"
#include "random_change.h"
#include "read/edit/edit.h"
#include "tools.h"

#include <doctest/doctest.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <sstream>

#include <unistd.h>

namespace fs = std::filesystem;
using namespace leafwright;
using namespace leafwright::app;

namespace {

// The main sample in a folder of its own.
struct MainProject {
  fs::path path = fs::temp_directory_path() / ("leafwright-again-" + std::to_string(::getpid()));
  fs::path project = path / "project.xml";
  MainProject() {
    fs::remove_all(path);
    fs::create_directories(path);
    const fs::path sample = fs::path(LEAFWRIGHT_SOURCE_DIR) / "samples/orchard-gate";
    fs::copy_file(sample / "project.xml", project);
    fs::copy_file(sample / "roster.csv", path / "roster.csv");
  }
  ~MainProject() {
    std::error_code ignored;
    fs::remove_all(path, ignored);
  }
  MainProject(const MainProject&) = delete;
  MainProject& operator=(const MainProject&) = delete;
};

RenderSettings open_one(const Arguments& arguments) {
  std::ostringstream out, error;
  Environment environment{out, error};
  environment.data = LEAFWRIGHT_SOURCE_DIR;
  auto opened = open_settings(arguments, environment);
  REQUIRE(std::holds_alternative<RenderSettings>(opened));
  return std::get<RenderSettings>(std::move(opened));
}

// With fonts and all else as a fresh run has them.
std::vector<OutputFile> from_scratch(const fs::path& project, const Arguments& arguments) {
  const RenderSettings settings = open_one(arguments);
  return render_project(project.string(), {"tutorial"}, settings, arguments).files;
}

} // namespace

TEST_CASE("after any change the document made again is, byte for byte, the one made from scratch") {
  const MainProject desk;
  const Arguments arguments;
  RenderSettings settings = open_one(arguments);
  DocumentCache cache;
  settings.cache = &cache;
  // One thing at a time first, so that nothing else could have told the old from the new; then by
  // chance.
  std::vector<std::vector<std::string>> changes = {
      {},
      {"kraft.colour=#c8a87d"},
      {"moss.colour=#749c7f"},
      {"project.accent=#5d3e49"},
      {"trees/scene.size=3 x 3"},
      {"window/pane.at=centre, 5/8 from top"},
      {"trees.title=Below the boughs"},
      {"trees/mat.stock=stripes"},
      {"moss.mark=rings"},
  };
  std::mt19937 random(17); // NOLINT(*-msc51-cpp): the same changes each time
  for (int i = 0; i < 2; ++i) changes.push_back(test::random_change(random));
  std::string before;
  int differed = 0;
  for (const std::vector<std::string>& change : changes) {
    std::string told;
    for (const std::string& one : change) told += one + " ";
    CAPTURE(told);
    const std::string text = tools::read_file(desk.project);
    const edit::Editing editing = edit::set_values(text, desk.project.string(), change);
    REQUIRE(editing.ok());
    std::ofstream(desk.project, std::ios::binary) << edit::applied(text, editing.edits);
    cache.next_round();
    const RenderedProject again =
        render_project(desk.project.string(), {"tutorial"}, settings, arguments);
    const std::vector<OutputFile> fresh = from_scratch(desk.project, arguments);
    REQUIRE(again.files.size() == fresh.size());
    for (std::size_t i = 0; i < fresh.size(); ++i) {
      CHECK(again.files[i].name == fresh[i].name);
      const bool same = again.files[i].bytes == fresh[i].bytes;
      CHECK(same);
      differed += fresh[i].bytes != before ? 1 : 0;
      before = fresh[i].bytes;
    }
  }
  CHECK(differed > 8); // the changes were changes
}

TEST_CASE("every document is the same with what other documents left behind") {
  const MainProject desk;
  const Arguments arguments;
  RenderSettings settings = open_one(arguments);
  const std::vector<std::string> known = {"tutorial", "editions", "handouts", "offer"};
  const std::vector<OutputFile> alone =
      render_project(desk.project.string(), known, settings, arguments).files;
  DocumentCache cache;
  settings.cache = &cache;
  for (int round = 0; round < 2; ++round) {
    cache.next_round();
    const std::vector<OutputFile> together =
        render_project(desk.project.string(), known, settings, arguments).files;
    REQUIRE(together.size() == alone.size());
    for (std::size_t i = 0; i < alone.size(); ++i) {
      CAPTURE(alone[i].name);
      const bool same = together[i].bytes == alone[i].bytes;
      CHECK(same);
    }
  }
}
