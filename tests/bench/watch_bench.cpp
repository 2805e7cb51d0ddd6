// From a save to the renamed document, as a user of `watch` waits: Orchard Gate's tutorial is made
// again after a change, many times over. Usage: watch_bench PROGRAM [rounds]
// The document's folder is watched by the system's own events, so nothing is polled; a round begins
// just before the project file is opened for writing.

#include "process.h"

#include <fmt/format.h>

#include <poll.h>
#include <signal.h>
#include <sys/inotify.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cstdlib>
#include <cstring>

namespace fs = std::filesystem;
using namespace leafwright;

namespace {

// Waits until a PDF has taken its name in the watched folder.
bool renamed(int events, int seconds) {
  const auto end = std::chrono::steady_clock::now() + std::chrono::seconds(seconds);
  for (;;) {
    const auto left = std::chrono::duration_cast<std::chrono::milliseconds>(
        end - std::chrono::steady_clock::now());
    pollfd waiting{events, POLLIN, 0};
    if (left.count() <= 0 || poll(&waiting, 1, static_cast<int>(left.count())) <= 0) return false;
    alignas(inotify_event) std::array<char, 8192> buffer{};
    const ssize_t length = read(events, buffer.data(), buffer.size());
    for (ssize_t at = 0; at < length;) {
      inotify_event event{};
      std::memcpy(&event, buffer.data() + at, sizeof event);
      const std::string_view name = event.len > 0
                                        ? buffer.data() + at + static_cast<ssize_t>(sizeof event)
                                        : std::string_view();
      if (name.ends_with(".pdf")) return true;
      at += static_cast<ssize_t>(sizeof event) + static_cast<ssize_t>(event.len);
    }
  }
}

struct Change {
  const char* what;
  const char* from;
  const char* first; // what `from` becomes, by turns
  const char* second;
};
constexpr std::array changes = {
    Change{"a panel's size", R"(on="mat" size="3 1/4 x 3 1/4" at="centre, 3/8 from top">
      <stamp image="tree")",
           R"(on="mat" size="3 1/8 x 3 1/4" at="centre, 3/8 from top">
      <stamp image="tree")",
           R"(on="mat" size="3 x 3 1/4" at="centre, 3/8 from top">
      <stamp image="tree")"},
    Change{"a word of a step", "Keep the dots upright.", "Keep all dots upright.",
           "Do keep the dots upright."},
    Change{"all cards' colour", R"(accent="#3d5e49")", R"(accent="#3d5e4a")",
           R"(accent="#3d5e4b")"},
};

} // namespace

int main(int count, char** words) {
  if (count < 2) {
    fmt::print(stderr, "watch_bench PROGRAM [rounds]\n");
    return 2;
  }
  const int rounds = count > 2 ? std::max(std::atoi(words[2]), 1) : 21;
  const fs::path samples = fs::path(LEAFWRIGHT_SOURCE_DIR) / "samples" / "orchard-gate";
  const fs::path work = fs::temp_directory_path() / fmt::format("watch-bench-{}", getpid());
  fs::create_directories(work / "out");
  fs::copy_file(samples / "roster.csv", work / "roster.csv");
  const std::string text = bench::whole_file(samples / "project.xml");
  const fs::path project = work / "project.xml";
  bench::put(project, text);
  const int events = inotify_init1(IN_CLOEXEC);
  inotify_add_watch(events, (work / "out").c_str(), IN_MOVED_TO | IN_CREATE);
  setenv("LEAFWRIGHT_DATA", LEAFWRIGHT_SOURCE_DIR, 0);
  const pid_t child =
      bench::start({words[1], "watch", project.string(), "-o", (work / "out").string(), "--quiet"});
  bool good = child > 0 && renamed(events, 60);
  usleep(200'000); // it waits now
  fmt::print("Orchard Gate, {} rounds each; milliseconds from write to renamed file\n", rounds);
  fmt::print("{:<20}{:>8}{:>8}{:>8}{:>8}{:>12}\n", "what changes", "median", "90 %", "least",
             "most", "processor");
  for (const Change& change : changes) {
    const std::size_t at = text.find(change.from);
    if (at == std::string::npos) {
      fmt::print("{:<20}  the sample no longer says so\n", change.what);
      good = false;
      continue;
    }
    std::vector<double> waits;
    double cpu = 0;
    // The first of each kind is not counted: what it changes was never made before.
    for (int round = -1; round < rounds && good; ++round) {
      std::string edited = text;
      // Never twice the same state, so that nothing can be remembered from it.
      edited.replace(at, std::strlen(change.from), round % 2 == 0 ? change.first : change.second);
      edited.replace(edited.find("Orchard Gate\""), 13,
                     fmt::format("Orchard Gate {}\"", round + 2));
      const double before = bench::cpu_ms(child);
      const auto begin = std::chrono::steady_clock::now();
      bench::put(project, edited);
      good = renamed(events, 30);
      if (round >= 0) {
        waits.push_back(
            std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - begin)
                .count());
        cpu += bench::cpu_ms(child) - before;
      }
      usleep(60'000);
    }
    fmt::print("{:<20}{:>8.1f}{:>8.1f}{:>8.1f}{:>8.1f}{:>12.1f}\n", change.what,
               bench::median(waits), bench::share_of(waits, 0.9), bench::share_of(waits, 0),
               bench::share_of(waits, 1), cpu / std::max(rounds, 1));
  }
  if (child > 0) {
    kill(child, SIGTERM);
    waitpid(child, nullptr, 0);
  }
  close(events);
  fs::remove_all(work);
  if (!good) fmt::print("failed\n");
  return good ? 0 : 1;
}
