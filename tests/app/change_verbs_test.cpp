#include "app/documents/documents.h"
#include "app/system/environment.h"
#include "app/system/operating_system.h"
#include "program.h"
#include "tools.h"

#include "output/write_file.h"
#include "read/edit/edit.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <chrono>
#include <csignal>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>
#include <sstream>
#include <string>
#include <thread>
#include <vector>

#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

namespace fs = std::filesystem;
using namespace leafwright::app;
using leafwright::test::Ran;
using leafwright::test::run_program;
using leafwright::tools::read_file;

namespace {

void put(const fs::path& path, const std::string& bytes) {
  std::ofstream(path, std::ios::binary) << bytes;
}

// A folder of its own with the smallest sample in it.
struct SmallProject {
  fs::path path = fs::temp_directory_path() / ("leafwright-change-" + std::to_string(::getpid()));
  fs::path project = path / "project.xml";
  std::string original = read_file(LEAFWRIGHT_SOURCE_DIR "/samples/five-minute/project.xml");
  SmallProject() {
    fs::remove_all(path);
    fs::create_directories(path);
    put(project, original);
  }
  ~SmallProject() {
    std::error_code ignored;
    fs::permissions(path, fs::perms::owner_all, ignored);
    fs::remove_all(path, ignored);
  }
  SmallProject(const SmallProject&) = delete;
  SmallProject& operator=(const SmallProject&) = delete;
};

std::string card_id(const std::string& text) {
  const std::size_t card = text.find("<card id=\"") + 10;
  return text.substr(card, text.find('"', card) - card);
}

// Why the edition in the other system costs more, on one line; empty when nothing is said of it.
std::string reasons_of(const std::string& project) {
  const std::string out = run_program({"remeasure", project}).out;
  const std::size_t at = out.find("Why it costs more");
  if (at == std::string::npos) return {};
  std::string words = out.substr(at, out.find("Look at these yourself") - at);
  for (char& c : words) c = c == '\n' ? ' ' : c;
  for (std::size_t two = 0; (two = words.find("  ")) != std::string::npos;) words.erase(two, 1);
  return words;
}

} // namespace

TEST_CASE("effects are shown without touching the file, and written when asked for") {
  const SmallProject desk;
  const std::string value = card_id(desk.original) + ".minutes=25";
  const Ran shown = run_program({"effects", desk.project.string(), "--set", value});
  CHECK_MESSAGE(shown.code == Done, shown.error);
  CHECK(shown.out.find("minutes") != std::string::npos);
  CHECK(read_file(desk.project) == desk.original);
  const Ran written = run_program({"effects", desk.project.string(), "--set", value, "--write"});
  CHECK_MESSAGE(written.code == Done, written.error);
  const std::string now = read_file(desk.project);
  CHECK(now.find("minutes=\"25\"") != std::string::npos);
  CHECK(now.size() == desk.original.size()); // two figures for two figures
  CHECK(read_file(desk.project.string() + ".before") == desk.original);
}

TEST_CASE("effects without a value is wrong use") {
  const SmallProject desk;
  CHECK(run_program({"effects", desk.project.string()}).code == WrongUse);
}

namespace {

// What `work` answers in a process of its own, which may give up rights and limits.
template <class Work>
int apart(const Work& work) {
  const pid_t child = fork();
  REQUIRE(child >= 0);
  if (child == 0) _exit(work());
  int status = 0;
  waitpid(child, &status, 0);
  return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}
constexpr int not_tried = 77;

} // namespace

TEST_CASE("a file in a folder that may not be written stays, and that is told") {
  const SmallProject desk;
  fs::permissions(desk.path, fs::perms::owner_read | fs::perms::owner_exec |
                                 fs::perms::others_read | fs::perms::others_exec);
  const std::vector<std::string> write = {"effects", desk.project.string(), "--set",
                                          card_id(desk.original) + ".minutes=25", "--write"};
  const int code = apart([&] {
    // Nothing is read-only to root: somebody else tries.
    constexpr uid_t nobody = 65534;
    if (::geteuid() == 0 && (::setgid(nobody) != 0 || ::setuid(nobody) != 0)) return not_tried;
    if (::access(LEAFWRIGHT_SOURCE_DIR "/fonts", R_OK | X_OK) != 0) return not_tried;
    return run_program(write).code;
  });
  const bool told = code == NotWritten || code == not_tried;
  CHECK_MESSAGE(told, code);
  if (code == not_tried) MESSAGE("the sources cannot be read by another user: not tried");
  CHECK(read_file(desk.project) == desk.original);
  std::size_t files = 0;
  for ([[maybe_unused]] const auto& entry : fs::directory_iterator(desk.path)) ++files;
  CHECK(files == 1);
}

TEST_CASE("when the disk takes no more, the project stays whole and nothing is left behind") {
  const SmallProject desk;
  const fs::path out = desk.path / "out";
  fs::create_directories(out);
  const std::vector<std::string> write = {"effects", desk.project.string(), "--set",
                                          card_id(desk.original) + ".minutes=25", "--write"};
  const std::vector<std::string> make = {"tutorial", desk.project.string(), "-o", out.string()};
  for (const auto& words : {write, make}) {
    CHECK(apart([&] {
            // A limit on the size of files makes the system's own write() fail (setrlimit(2)).
            std::signal(SIGXFSZ, SIG_IGN);
            const rlimit small{1000, 1000};
            if (::setrlimit(RLIMIT_FSIZE, &small) != 0) return not_tried;
            return run_program(words).code;
          }) == NotWritten);
    CHECK(read_file(desk.project) == desk.original);
  }
  CHECK(fs::is_empty(out));
  CHECK_FALSE(fs::exists(desk.project.string() + ".before"));
}

TEST_CASE("killed at any moment of writing, one of the two files is whole") {
  const SmallProject desk;
  const std::string first = card_id(desk.original) + ".minutes=";
  std::mt19937 random(5); // NOLINT(*-msc51-cpp): the same moments each time
  constexpr int kills = 200;
  for (int i = 0; i < kills; ++i) {
    CAPTURE(i);
    const pid_t child = fork();
    REQUIRE(child >= 0);
    if (child == 0) {
      using namespace leafwright;
      for (int n = 10;; n = n == 99 ? 10 : n + 1) {
        const std::string before = read_file(desk.project);
        const edit::Editing editing =
            edit::set_values(before, desk.project.string(), {first + std::to_string(n)});
        file::write_file(desk.project.string() + ".before", before);
        file::write_file(desk.project.string(), edit::applied(before, editing.edits));
      }
      _exit(0);
    }
    std::this_thread::sleep_for(std::chrono::microseconds(random() % 12'000));
    kill(child, SIGKILL);
    waitpid(child, nullptr, 0);
    const std::string now = read_file(desk.project);
    REQUIRE(now.size() == desk.original.size());
    const std::size_t at = now.find("minutes=\"");
    CHECK(now.substr(0, at) == desk.original.substr(0, at));
    CHECK(now.substr(at + 11) == desk.original.substr(at + 11));
  }
}

TEST_CASE("two editions: a report, corrections and data are written") {
  const SmallProject desk;
  const fs::path newer = desk.path / "newer.xml";
  put(newer, desk.original);
  REQUIRE(run_program({"effects", newer.string(), "--set", "project.edition=2", "--set",
                       card_id(desk.original) + ".minutes=25", "--write"})
              .code == Done);
  const fs::path out = desk.path / "out";
  const Ran ran = run_program({"compare", desk.project.string(), newer.string(), "-o", out.string(),
                               "--bars", "--nothing-cut"});
  REQUIRE_MESSAGE(ran.code == Done, ran.error);
  CHECK(ran.out.find("edition 1 → edition 2") != std::string::npos);
  std::size_t pdfs = 0;
  for (const auto& entry : fs::directory_iterator(out)) pdfs += entry.path().extension() == ".pdf";
  CHECK(pdfs == 3);
  const Ran same = run_program({"compare", newer.string(), newer.string()});
  CHECK(same.out.find("Nothing changes") != std::string::npos);
}

TEST_CASE("an edition can be the project that an earlier PDF carries") {
  const SmallProject desk;
  const std::string out = (desk.path / "out").string();
  REQUIRE(run_program({"tutorial", desk.project.string(), "-o", out, "--with-project"}).code ==
          Done);
  std::string pdf;
  for (const auto& entry : fs::directory_iterator(out)) pdf = entry.path().string();
  const Ran same = run_program({"compare", pdf, desk.project.string()});
  CHECK(same.code == Done);
  CHECK(same.out.find("Nothing changes") != std::string::npos);
  put(desk.project, desk.original);
  const std::string value = card_id(desk.original) + ".minutes=25";
  REQUIRE(run_program({"effects", desk.project.string(), "--set", value, "--write"}).code == Done);
  const Ran changed = run_program({"compare", pdf, desk.project.string()});
  CHECK(changed.out.find("minutes") != std::string::npos);
  REQUIRE(run_program({"tutorial", desk.project.string(), "-o", out}).code == Done);
  const Ran without = run_program({"compare", pdf, desk.project.string()});
  CHECK(without.code != Done);
  CHECK(without.error.find("--with-project") != std::string::npos);
}

TEST_CASE("a family tells what each size costs and what the rules find") {
  const SmallProject desk;
  const Ran ran = run_program(
      {"family", desk.project.string(), "--vary", "cards.size=A2,A6", "--format", "json"});
  REQUIRE_MESSAGE(ran.code == Done, ran.error);
  CHECK(ran.out.find("\"A2\"") != std::string::npos);
  CHECK(ran.out.find("\"A6\"") != std::string::npos);
  CHECK(run_program({"family", desk.project.string(), "--vary", "cards.size"}).code == WrongUse);
}

TEST_CASE("a size that no sheet is large enough for costs at least so much") {
  const SmallProject desk;
  const auto of_size = [&](const char* size) {
    return run_program(
               {"family", desk.project.string(), "--vary", std::string("cards.size=") + size})
        .out;
  };
  CHECK(of_size("A2").find("at least") == std::string::npos);
  CHECK(of_size("20 x 30 in").find("at least") != std::string::npos);
}

TEST_CASE("a design in the other system is shown, and written to a new file when asked for") {
  const SmallProject desk;
  const Ran shown = run_program({"remeasure", desk.project.string(), "--format", "json"});
  REQUIRE_MESSAGE(shown.code == Done, shown.error);
  CHECK(shown.out.find("\"units\": \"mm\"") != std::string::npos);
  CHECK(read_file(desk.project) == desk.original);
  const fs::path metric = desk.path / "metric.xml";
  const std::vector<std::string> write = {"remeasure", desk.project.string(), "-o",
                                          metric.string()};
  REQUIRE(run_program(write).code == Done);
  CHECK(read_file(metric).find("units=\"mm\"") != std::string::npos);
  CHECK(run_program({"check", metric.string()}).code == Done);
  CHECK(run_program({"tutorial", metric.string(), "-o", (desk.path / "out").string()}).code ==
        Done);
  // What is there already is somebody's work.
  put(metric, "mine");
  CHECK(run_program(write).code == NotWritten);
  CHECK(read_file(metric) == "mine");
  CHECK(run_program({"remeasure", desk.project.string(), "--mark", "0.37"}).code == WrongUse);
}

TEST_CASE("an edition in the other system that buys a roll more says why and what avoids it") {
  // A spool of 360 in gives 15 lengths of 24 in exactly, and 14 of 610 mm.
  const SmallProject desk;
  std::string text = desk.original;
  const std::string adhesive = "<adhesive id=\"tape\"";
  text.insert(text.find(adhesive),
              "<ribbon id=\"rust-grosgrain\" name=\"Rust grosgrain ribbon\" width=\"3/8\" "
              "spool=\"360\" price=\"8.00\"/>");
  text.insert(text.find("</project>"),
              "<tier id=\"cut-parts\" name=\"Parts kit\" price=\"26.00\">"
              "<include item=\"rust-grosgrain\" amount=\"24 in\"/></tier>"
              "<run of-each=\"1\"><expect tier=\"cut-parts\" kits=\"15\"/></run>");
  put(desk.project, text);
  const std::string words = reasons_of(desk.project.string());
  CAPTURE(words);
  CHECK(words.find("Rust grosgrain ribbon: ") != std::string::npos);
  CHECK(words.find("Cuts of 24 in are 610 mm now: a spool gives 14 of them, not 15.") !=
        std::string::npos);
  CHECK(words.find("Write 609 mm in place of 610 mm to avoid it: tier cut-parts") !=
        std::string::npos);
  CHECK(words.find("Kraft") == std::string::npos);
}

TEST_CASE(
    "an edition in the other system that buys a pack more says so, and names no other paper") {
  const std::string words = reasons_of(LEAFWRIGHT_SOURCE_DIR "/samples/orchard-gate/project.xml");
  CAPTURE(words);
  CHECK(words.find("Windfall paper pack: 16 packs instead of 15, $8.00 more.") !=
        std::string::npos);
  CHECK(words.find("Kraft") == std::string::npos);
}

TEST_CASE("an edition in the other system that buys no more gives no reasons") {
  const SmallProject desk;
  const Ran shown = run_program({"remeasure", desk.project.string()});
  CHECK(shown.out.find("Why it costs more") == std::string::npos);
}

TEST_CASE("a batch makes the same bytes with one worker and with three, and tells what failed") {
  const SmallProject desk;
  const fs::path all = desk.path / "all";
  for (int i = 0; i < 5; ++i) {
    fs::create_directories(all / std::to_string(i));
    put(all / std::to_string(i) / "project.xml",
        i == 3 ? desk.original.substr(0, 900) : desk.original);
  }
  const auto make = [&](const char* jobs) {
    const fs::path out = desk.path / jobs;
    const Ran ran = run_program({"batch", all.string(), "-o", out.string(), "-j", jobs});
    CHECK(ran.code == FoundErrors);
    CHECK(ran.out.find("4 of 5 projects made, 1 failed") != std::string::npos);
    std::string bytes;
    for (int i = 0; i < 5; ++i) {
      const fs::path folder = out / std::to_string(i);
      if (!fs::exists(folder)) continue;
      for (const auto& entry : fs::directory_iterator(folder)) bytes += read_file(entry.path());
    }
    return bytes;
  };
  const std::string once = make("1");
  CHECK_FALSE(once.empty());
  CHECK(make("3") == once);
}

TEST_CASE("a worker that dies costs its own piece of work only") {
  std::vector<std::string> answers(20);
  run_in_processes(
      answers.size(), 3,
      [](std::size_t index) -> std::string {
        if (index == 7) ::raise(SIGKILL);
        return "made " + std::to_string(index);
      },
      [&](std::size_t index, std::string answer) { answers[index] = std::move(answer); });
  for (std::size_t i = 0; i < answers.size(); ++i)
    CHECK((answers[i] == "made " + std::to_string(i)) == (i != 7));
}

TEST_CASE("a process that is killed while it has nothing to do costs no work at all") {
  std::vector<std::string> answers(8);
  run_in_processes(
      answers.size(), 1, [](std::size_t) { return std::to_string(::getpid()); },
      [&](std::size_t index, std::string answer) {
        // It has answered and waits for more; gone for certain before it gets any.
        const auto process = static_cast<pid_t>(std::stol(answer));
        answers[index] = std::move(answer);
        ::kill(process, SIGKILL);
        siginfo_t info{};
        ::waitid(P_PID, static_cast<id_t>(process), &info, WEXITED | WNOWAIT);
      });
  std::sort(answers.begin(), answers.end());
  CHECK(answers.front().find_first_not_of("0123456789") == std::string::npos);
  CHECK(std::unique(answers.begin(), answers.end()) == answers.end()); // each time another process
}

TEST_CASE("status tells a current document from an old one") {
  const SmallProject desk;
  const std::string out = (desk.path / "out").string();
  REQUIRE(run_program({"tutorial", desk.project.string(), "-o", out}).code == Done);
  const Ran current = run_program({"status", out, desk.project.string()});
  CHECK_MESSAGE(current.code == Done, current.out);
  put(desk.project, desk.original + "\n");
  const Ran old = run_program({"status", out, desk.project.string()});
  CHECK(old.code == FoundErrors);
  CHECK(old.out.find("project.xml changed") != std::string::npos);
}

TEST_CASE("a document made from a roster is current while the roster is as it was") {
  const SmallProject desk;
  const std::string out = (desk.path / "out").string();
  const std::string project =
      std::string(LEAFWRIGHT_SOURCE_DIR) + "/samples/orchard-gate/project.xml";
  REQUIRE(run_program({"totals", project, "-o", out}).code == Done);
  const Ran current = run_program({"status", out, project});
  CHECK_MESSAGE(current.code == Done, current.out);
}

TEST_CASE("a burst of saves is one change; a file renamed over another is seen") {
  const SmallProject desk;
  FolderWatch folders;
  REQUIRE(folders.ok());
  folders.add(desk.path.string());
  for (int i = 0; i < 5; ++i) put(desk.project, desk.original);
  put(desk.path / "new.tmp", desk.original);
  fs::rename(desk.path / "new.tmp", desk.project);
  using std::chrono::milliseconds;
  const std::vector<std::string> names = folders.wait(milliseconds(20), milliseconds(1000));
  CHECK(std::find(names.begin(), names.end(), desk.project.string()) != names.end());
  CHECK(folders.wait(milliseconds(20), milliseconds(50)).empty());
}

TEST_CASE("watch makes again what was saved and keeps the last good document over a broken state") {
  const SmallProject desk;
  const fs::path out = desk.path / "out";
  const pid_t child = fork();
  REQUIRE(child >= 0);
  if (child == 0) {
    run_program({"watch", desk.project.string(), "-o", out.string()});
    _exit(0);
  }
  const auto pdf = [&]() -> std::string {
    std::error_code ignored;
    for (const auto& entry : fs::directory_iterator(out, ignored))
      if (entry.path().extension() == ".pdf") return read_file(entry.path());
    return {};
  };
  const auto until = [&](const auto& holds) {
    for (int i = 0; i < 600 && !holds(); ++i)
      std::this_thread::sleep_for(std::chrono::milliseconds(50));
    return holds();
  };
  CHECK(until([&] { return !pdf().empty(); }));
  std::this_thread::sleep_for(std::chrono::milliseconds(300)); // it waits now
  const std::string first = pdf();
  put(desk.project, desk.original.substr(0, desk.original.size() / 2));
  std::this_thread::sleep_for(std::chrono::milliseconds(500));
  CHECK(pdf() == first);
  std::string changed = desk.original;
  changed.insert(changed.find("title=\"") + 7, "New ");
  put(desk.path / ".swap", changed);
  fs::rename(desk.path / ".swap", desk.project);
  CHECK(until([&] { return pdf() != first; }));
  kill(child, SIGKILL);
  waitpid(child, nullptr, 0);
}

TEST_CASE("a dependency file escapes what make would take for something else") {
  CHECK(depfile_text({"out/a b.pdf"}, {"p$1.xml", "c:d#.png"}) ==
        "out/a\\ b.pdf: \\\n  p$$1.xml \\\n  c\\:d\\#.png\n\np$$1.xml:\n\nc\\:d\\#.png:\n");
}
