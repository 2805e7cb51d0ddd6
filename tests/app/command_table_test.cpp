#include "program.h"
#include "tools.h"

#include "app/system/arguments.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <set>
#include <sstream>

#include <unistd.h>

// The tables of verbs and options, seen from outside: what help, manual and completions say of
// them.

namespace fs = std::filesystem;
using namespace leafwright::app;
using leafwright::test::run_program;

namespace {

std::string help(const std::vector<std::string>& words) {
  std::vector<std::string> all{"help"};
  all.insert(all.end(), words.begin(), words.end());
  const auto ran = run_program(all);
  CHECK_MESSAGE(ran.code == Done, ran.error);
  return ran.out;
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream stream(text);
  for (std::string line; std::getline(stream, line);) lines.push_back(line);
  return lines;
}

// From the table of commands: | `leafwright new NAME` | ... |
std::vector<std::string> verb_names() {
  std::vector<std::string> names;
  for (const std::string& line : lines_of(help({"--table"}))) {
    constexpr std::string_view before = "| `leafwright ";
    if (!line.starts_with(before)) continue;
    names.push_back(line.substr(before.size(), line.find(' ', before.size()) - before.size()));
  }
  return names;
}

std::vector<std::string> topic_names() {
  std::vector<std::string> names;
  for (const auto& entry : fs::directory_iterator(LEAFWRIGHT_SOURCE_DIR "/templates/help"))
    names.push_back(entry.path().stem().string());
  return names;
}

std::vector<std::string> split(std::string_view text, char at) {
  std::vector<std::string> parts;
  std::istringstream stream{std::string(text)};
  for (std::string part; std::getline(stream, part, at);) parts.push_back(part);
  return parts;
}

// Whether `command` takes `text` in a file of its own; "{}" stands for the file.
bool accepted(const std::string& text, std::string command) {
  const fs::path file =
      fs::temp_directory_path() / ("leafwright-help-" + std::to_string(::getpid()));
  std::ofstream(file) << text;
  command.replace(command.find("{}"), 2, file.string());
  const bool fine = std::system(command.c_str()) == 0; // NOLINT(*-env33-c): a test's own words
  fs::remove(file);
  return fine;
}
bool have(const std::string& program) {
  const std::string look = "command -v " + program + " >/dev/null";
  return std::system(look.c_str()) == 0; // NOLINT(*-env33-c)
}

} // namespace

TEST_CASE("every option exists once") {
  std::set<std::string> names;
  for (const Option& option : all_options)
    for (const std::string& name : split(option.names, ',')) {
      CAPTURE(name);
      CHECK(names.insert(name).second);
    }
}

TEST_CASE("an option names verbs that there are") {
  const std::vector<std::string> verbs = verb_names();
  for (const Option& option : all_options)
    for (const std::string& verb : split(option.verbs, ' ')) {
      CAPTURE(verb);
      CHECK(std::ranges::find(verbs, verb) != verbs.end());
    }
}

TEST_CASE("every option is had by some verb, whose help shows it") {
  std::string all;
  for (const std::string& verb : verb_names()) all += help({verb});
  for (const Option& option : all_options) {
    const std::string name = split(option.names, ',').back();
    CAPTURE(name);
    CHECK(all.find(name) != std::string::npos);
  }
}

TEST_CASE("help of a verb is the same, asked for in either way") {
  for (const std::string& verb : verb_names()) {
    CAPTURE(verb);
    CHECK(run_program({verb, "--help"}).out == help({verb}));
  }
}

TEST_CASE("help of a verb has a purpose, two examples and the exit codes") {
  for (const std::string& verb : verb_names()) {
    const std::string text = help({verb});
    CAPTURE(verb);
    CHECK(text.starts_with(verb + ": "));
    const std::size_t examples = text.find("\nExamples\n");
    REQUIRE(examples != std::string::npos);
    const std::string first = "  leafwright " + verb + " ";
    const std::size_t one = text.find(first, examples);
    REQUIRE(one != std::string::npos);
    CHECK(text.find(first, one + 1) != std::string::npos);
    CHECK(text.find("\nExit codes\n") != std::string::npos);
  }
}

TEST_CASE("no line of help is wider than 100 columns") {
  std::vector<std::string> pages{help({})};
  for (const std::string& name : verb_names()) pages.push_back(help({name}));
  for (const std::string& name : topic_names()) pages.push_back(help({name}));
  for (const std::string& page : pages)
    for (const std::string& line : lines_of(page)) {
      CAPTURE(line);
      // UTF-8: bytes that go on with a character are no column.
      CHECK(std::ranges::count_if(line, [](char c) { return (c & 0xC0) != 0x80; }) <= 100);
    }
}

TEST_CASE("README's table of commands is the program's") {
  CHECK(leafwright::tools::read_file(LEAFWRIGHT_SOURCE_DIR "/README.md").find(help({"--table"})) !=
        std::string::npos);
}

TEST_CASE("what is neither a command nor a topic is wrong use") {
  CHECK(run_program({"help", "gluing-guns"}).code == WrongUse);
}

TEST_CASE("the help lists every topic by its title") {
  const std::string all = help({});
  CHECK_FALSE(topic_names().empty());
  for (const std::string& name : topic_names()) {
    const std::string title = lines_of(help({name})).front();
    CAPTURE(name);
    CHECK(title.starts_with("# "));
    CHECK(all.find(title.substr(2)) != std::string::npos);
  }
}

TEST_CASE("the pages of the manual are sound roff") {
  if (!have("mandoc") && !have("groff")) {
    MESSAGE("neither mandoc nor groff is here: not tried");
    return;
  }
  // A page has no date: the same program gives the same bytes.
  const std::string lint =
      have("mandoc") ? "test -z \"$(mandoc -T lint -W warning {} | grep -v 'missing date')\""
                     : "test -z \"$(groff -man -ww -z {} 2>&1)\"";
  std::vector<std::vector<std::string>> pages{{"--man"}};
  for (const std::string& name : verb_names()) pages.push_back({"--man", name});
  for (const std::string& name : topic_names()) pages.push_back({"--man", name});
  for (const std::vector<std::string>& page : pages) {
    CAPTURE(page.back());
    CHECK(accepted(help(page), lint));
  }
}

TEST_CASE("a page of the manual names every option of its verb") {
  const std::string page = help({"--man", "booklet"});
  for (const Option& option : all_options) {
    if (option.verbs != "booklet") continue;
    std::string name;
    for (const char c : option.names) name += c == '-' ? std::string("\\-") : std::string(1, c);
    CAPTURE(name);
    CHECK(page.find(name) != std::string::npos);
  }
}

TEST_CASE("a shell reads its completions without complaint") {
  CHECK(accepted(help({"--completions", "bash"}), "bash -n {}"));
  for (const std::string shell : {"zsh", "fish"})
    if (have(shell)) CHECK(accepted(help({"--completions", shell}), shell + " -n {}"));
}

TEST_CASE("bash completes commands, options and values") {
  const auto completed = [](const std::string& words, int at) {
    return accepted(help({"--completions", "bash"}),
                    "bash -c '. {}; COMP_WORDS=(" + words + "); COMP_CWORD=" + std::to_string(at) +
                        "; _leafwright; echo \"${COMPREPLY[*]}\" | grep -q . && "
                        "[ \"${COMPREPLY[0]}\" = \"$WANTED\" ]'");
  };
  ::setenv("WANTED", "tutorial", 1); // NOLINT(*-mt-unsafe)
  CHECK(completed("leafwright tut", 1));
  ::setenv("WANTED", "--paper", 1); // NOLINT(*-mt-unsafe)
  CHECK(completed("leafwright tutorial --pap", 2));
  ::setenv("WANTED", "letter", 1); // NOLINT(*-mt-unsafe)
  CHECK(completed("leafwright tutorial --paper le", 3));
}
