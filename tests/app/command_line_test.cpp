#include "program.h"
#include "tools.h"

#include "app/system/environment.h"

#include <doctest/doctest.h>

#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include <unistd.h>

namespace fs = std::filesystem;
using namespace leafwright::app;

using leafwright::test::Ran;
using leafwright::test::sample;
using leafwright::tools::Folder;
using leafwright::tools::read_file;

namespace {

Ran run_with(const std::vector<std::string>& words, const char* epoch = nullptr) {
  return leafwright::test::run_program(words, {epoch});
}

} // namespace

TEST_CASE("help goes to the output stream and is no error") {
  const Ran ran = run_with({"--help"});
  CHECK(ran.code == Done);
  CHECK(ran.out.find("tutorial") != std::string::npos);
  CHECK(ran.error.empty());
}

TEST_CASE("an unknown verb is wrong use, told on the error stream") {
  const Ran ran = run_with({"tutoral", "project.xml"});
  CHECK(ran.code == WrongUse);
  CHECK(ran.out.empty());
  CHECK_FALSE(ran.error.empty());
}

TEST_CASE("a command that is nearly one is told which was meant") {
  CHECK(run_with({"tutoral", "project.xml"}).error.find("did you mean tutorial?") !=
        std::string::npos);
}

TEST_CASE("a second project is wrong use, and not left aside in silence") {
  const Ran ran = run_with({"check", sample("five-minute"), sample("orchard-gate")});
  CHECK(ran.code == WrongUse);
  CHECK(ran.error.find("2 were given") != std::string::npos);
}

TEST_CASE("an option that a command does not have is named") {
  const Ran ran = run_with({"tutorial", sample("five-minute"), "--print", "large"});
  CHECK(ran.code == WrongUse);
  CHECK(ran.error.find("--print") != std::string::npos);
}

TEST_CASE("a project that is not there ends in a finding that names it") {
  const Ran ran = run_with({"check", "no-such-project.xml"});
  CHECK(ran.code == FoundErrors);
  CHECK(ran.error.find("no-such-project.xml") != std::string::npos);
}

TEST_CASE("check lists its rules") {
  const Ran ran = run_with({"check", "--rules"});
  CHECK(ran.code == Done);
  CHECK(ran.out.find("fit-") != std::string::npos);
}

TEST_CASE("one card is counted as one card") {
  CHECK(run_with({"check", sample("five-minute")}).out.find(": 1 card,") != std::string::npos);
}

TEST_CASE("what is accepted is not told, and check --all lists it with its reason") {
  const tools::Folder folder;
  std::string text = tools::read_file(sample("five-minute"));
  const auto checked = [&](const std::string& accept, const std::vector<std::string>& more = {}) {
    std::string now = text;
    now.insert(now.find("<base"), accept);
    std::ofstream(folder.path("project.xml"), std::ios::binary) << now;
    std::vector<std::string> words{"check", folder.path("project.xml")};
    words.insert(words.end(), more.begin(), more.end());
    return run_program(words).error;
  };
  const auto holds = [](const std::string& told, std::string_view words) {
    return told.find(words) != std::string::npos;
  };
  REQUIRE(holds(checked(""), "[fit-mail-uneven]"));
  const std::string accept = R"(<accept finding="fit-mail-uneven" why="handed over at the fair"/>)";
  CHECK_FALSE(holds(checked(accept), "uneven"));
  const std::string all = checked(accept, {"--all"});
  CHECK(holds(all, "handed over at the fair"));
  CHECK(holds(all, "[accepted]"));
  // An acceptance of what is no longer found, or of a misspelt code, is told.
  CHECK(holds(checked(R"(<accept finding="fit-grain" why="seen"/>)"), "[accept-idle]"));
}

TEST_CASE("findings can be had as JSON, one object a line") {
  const Ran ran = run_with({"check", sample("five-minute"), "--format", "json"});
  CHECK(ran.code == Done);
  std::istringstream lines(ran.error);
  for (std::string line; std::getline(lines, line);) {
    CAPTURE(line);
    CHECK(line.front() == '{');
    CHECK(line.back() == '}');
  }
}

TEST_CASE("the tutorial is one PDF, the same bytes each time") {
  const Folder folder;
  const Ran first = run_with({"tutorial", sample("five-minute"), "-o", folder.path()});
  REQUIRE_MESSAGE(first.code == Done, first.error);
  std::vector<fs::path> made(fs::directory_iterator(folder.path()), fs::directory_iterator{});
  REQUIRE(made.size() == 1);
  const std::string once = read_file(made[0]);
  CHECK(once.substr(0, 5) == "%PDF-");
  REQUIRE(run_with({"tutorial", sample("five-minute"), "-o", folder.path()}).code == Done);
  CHECK(read_file(made[0]) == once);
}

TEST_CASE("the tutorial is the same whether or not the whole run is planned beside it") {
  const Folder folder;
  const std::string alone = (fs::path(folder.path()) / "alone").string();
  const std::string among = (fs::path(folder.path()) / "among").string();
  REQUIRE(run_with({"tutorial", sample("orchard-gate"), "-o", alone}).code == Done);
  const Ran all = run_with({"all", sample("orchard-gate"), "-o", among, "--seconds", "0.1"});
  REQUIRE_MESSAGE(all.code == Done, all.error);
  CHECK(fs::exists(fs::path(among) / "orchard-gate-buying-list.pdf"));
  CHECK(read_file(fs::path(alone) / "orchard-gate-tutorial.pdf") ==
        read_file(fs::path(among) / "orchard-gate-tutorial.pdf"));
}

TEST_CASE("a project with errors makes nothing, and a marked draft when that is asked for") {
  const Folder folder;
  // The label becomes wider than the mat that carries it.
  const std::vector<std::string> words = {
      "tutorial", sample("five-minute"), "--set", "mat.size=6 x 8", "-o", folder.path()};
  const Ran refused = run_with(words);
  CHECK(refused.code == FoundErrors);
  CHECK(fs::is_empty(folder.path()));
  std::vector<std::string> draft = words;
  draft.emplace_back("--draft");
  const Ran made = run_with(draft);
  CHECK_MESSAGE(made.code == Done, made.error);
  CHECK_FALSE(fs::is_empty(folder.path()));
}

TEST_CASE("a malformed SOURCE_DATE_EPOCH is refused") {
  const Folder folder;
  const Ran ran = run_with({"tutorial", sample("five-minute"), "-o", folder.path()}, "yesterday");
  CHECK(ran.code == WrongUse);
  CHECK(fs::is_empty(folder.path()));
}

TEST_CASE("a new project builds as it is, and is never overwritten") {
  const Folder folder;
  const Ran begun = run_with({"new", "Fog & Fern", "-o", folder.path()});
  REQUIRE_MESSAGE(begun.code == Done, begun.error);
  const fs::path file = fs::path(folder.path()) / "fog-fern" / "project.xml";
  REQUIRE(fs::exists(file));
  const Ran built =
      run_with({"tutorial", file.string(), "-o", (fs::path(folder.path()) / "out").string()});
  CHECK_MESSAGE(built.code == Done, built.error);
  CHECK(fs::exists(fs::path(folder.path()) / "out" / "fog-fern-tutorial.pdf"));
  const std::string before = read_file(file);
  CHECK(run_with({"new", "Fog & Fern", "-o", folder.path()}).code == NotWritten);
  CHECK(read_file(file) == before);
}

TEST_CASE("parts are planned without a project") {
  const Folder folder;
  std::ofstream(fs::path(folder.path()) / "pieces.csv")
      << "id,width,height,copies\nbase,68,176,40\n";
  std::ofstream(fs::path(folder.path()) / "sheets.csv") << "width,height\n136,176\n";
  const Ran ran =
      run_with({"parts", (fs::path(folder.path()) / "pieces.csv").string(),
                (fs::path(folder.path()) / "sheets.csv").string(), "--unit", "1/16 in"});
  REQUIRE_MESSAGE(ran.code == Done, ran.error);
  // Common practice: two A2 bases from one letter sheet.
  CHECK(ran.out.find("20") != std::string::npos);
  CHECK(ran.out.front() == '{');
}

TEST_CASE("the web page and the pictures come from the command line, at the sizes asked for") {
  const Folder folder;
  const std::string out = folder.path();
  REQUIRE(run_with({"html", sample("five-minute"), "-o", out}).code == Done);
  CHECK(read_file(fs::path(folder.path()) / "first-leaf-tutorial.html")
            .starts_with("<!DOCTYPE html>"));
  CHECK(run_with({"html", sample("five-minute"), "-o", out, "--style", "no-such.css"}).code ==
        FoundErrors);
  const Ran made = run_with(
      {"pictures", sample("five-minute"), "-o", out, "--size", "300x200", "--width", "200"});
  REQUIRE_MESSAGE(made.code == Done, made.error);
  // Width and height stand in bytes 16 to 23 of a PNG (ISO/IEC 15948, IHDR).
  CHECK(read_file(fs::path(folder.path()) / "pictures" / "poster-300x200.png").substr(16, 8) ==
        std::string("\0\0\x01\x2c\0\0\0\xc8", 8));
  CHECK(fs::exists(fs::path(folder.path()) / "pictures" / "contact-sheet.svg"));
  CHECK(fs::exists(fs::path(folder.path()) / "pictures" / "descriptions.csv"));
  for (const char* size : {"300", "300x", "x200", "300x200x1", "9x9", "99999x99999"})
    CHECK(run_with({"pictures", sample("five-minute"), "-o", out, "--size", size}).code ==
          WrongUse);
}

namespace {

// What stands on the error stream of a terminal.
std::string on_terminal(std::vector<std::string> words, bool terminal) {
  std::ostringstream out, error;
  Environment environment{out, error};
  environment.data = LEAFWRIGHT_SOURCE_DIR;
  environment.error_is_terminal = terminal;
  CHECK(run(words, environment) == Done);
  return error.str();
}

} // namespace

TEST_CASE("a terminal is told from the start which document is being made") {
  const Folder folder;
  const std::vector<std::string> all{"all", sample("five-minute"), "-o", folder.path()};
  const std::string told = on_terminal(all, true);
  CHECK(told.starts_with("\rReading "));
  CHECK(told.find("tutorial (1 of 16)") != std::string::npos);
  CHECK(told.find("run-sheet (16 of 16)") != std::string::npos);
}

TEST_CASE("no progress is told where nobody looks, or to those who want quiet") {
  const Folder folder;
  std::vector<std::string> all{"all", sample("five-minute"), "-o", folder.path()};
  CHECK(on_terminal(all, false).find('\r') == std::string::npos);
  all.emplace_back("--quiet");
  CHECK(on_terminal(all, true).find('\r') == std::string::npos);
}

TEST_CASE("one line of progress is wiped by as many blanks as it was long") {
  const Folder folder;
  const std::string told =
      on_terminal({"tutorial", sample("five-minute"), "-o", folder.path()}, true);
  const std::size_t end = told.rfind('\r');
  const std::size_t before = told.rfind('\r', end - 1);
  REQUIRE(before != std::string::npos);
  CHECK(told.substr(before + 1, end - before - 1).find_first_not_of(' ') == std::string::npos);
}
