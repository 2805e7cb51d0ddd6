#include "texts.h"

#include "app/local_page/internal/project_lock.h"
#include "app/local_page/internal/unsaved_log.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include <unistd.h>

// What is kept of changes that were not saved, also when the writing of it was cut off.

using namespace leafwright;
using namespace leafwright::local_page;
using namespace leafwright::test;
namespace fs = std::filesystem;

namespace {

struct Folder {
  Folder() : path(fs::temp_directory_path() / ("leafwright-log-" + std::to_string(::getpid()))) {
    fs::create_directories(path);
  }
  ~Folder() { fs::remove_all(path); }
  fs::path path;
};

// A log of two changes; the text after each.
std::vector<std::string> written_to(UnsavedLog& log) {
  Session session(small_project);
  std::vector<std::string> texts{small_project};
  for (const char* inset : {"1/4", "3/8"}) {
    REQUIRE(done(session, set_wish(key_of(session.now(), "panel", "mat"), "inset", inset)));
    REQUIRE(log.append(session.saved(), session.take_news()));
    texts.push_back(session.now().bytes);
  }
  return texts;
}

} // namespace

TEST_CASE("what was not saved is read back") {
  const Folder folder;
  UnsavedLog log((folder.path / "project.xml").string());
  CHECK_FALSE(log.read());
  const std::vector<std::string> texts = written_to(log);
  const auto kept = UnsavedLog((folder.path / "project.xml").string()).read();
  REQUIRE(kept);
  CHECK(kept->base == small_project);
  CHECK(kept->bytes == texts.back());
  CHECK((fs::status(log.path()).permissions() & fs::perms::group_read) == fs::perms::none);
  log.clear();
  CHECK_FALSE(fs::exists(log.path()));
}

TEST_CASE("cut off anywhere, it gives a state that there was, or none") {
  const Folder folder;
  UnsavedLog log((folder.path / "project.xml").string());
  const std::vector<std::string> texts = written_to(log);
  std::ifstream file(log.path(), std::ios::binary);
  const std::string whole{std::istreambuf_iterator<char>(file), {}};
  std::size_t seen = 0;
  for (std::size_t length = 0; length < whole.size(); length += 7) {
    std::ofstream(log.path(), std::ios::binary) << whole.substr(0, length);
    const auto kept = log.read();
    if (!kept) continue;
    CHECK(std::ranges::find(texts, kept->bytes) != texts.end());
    ++seen;
  }
  CHECK(seen > 5);
}

TEST_CASE("damaged bytes end it before the damage") {
  const Folder folder;
  UnsavedLog log((folder.path / "project.xml").string());
  const std::vector<std::string> texts = written_to(log);
  std::fstream file(log.path(), std::ios::binary | std::ios::in | std::ios::out);
  file.seekp(-3, std::ios::end);
  file.put('#');
  file.close();
  CHECK(log.read()->bytes == texts.at(1));
}

TEST_CASE("a project is open once, by whatever name, and free again afterwards") {
  const Folder folder;
  const std::string path = (folder.path / "project.xml").string();
  {
    const ProjectLock first(path);
    CHECK_FALSE(first.held_elsewhere());
    CHECK(ProjectLock((folder.path / "." / "project.xml").string()).held_elsewhere());
    CHECK_FALSE(ProjectLock((folder.path / "other.xml").string()).held_elsewhere());
  }
  CHECK_FALSE(ProjectLock(path).held_elsewhere());
}
