// A folder of many projects made at once: how many cores are used, and whether memory stays flat.
// Usage: batch_bench PROGRAM [projects] [jobs]
// Nine of ten projects are the smallest sample, one is Orchard Gate, each with a size of its own.

#include "process.h"

#include <fmt/format.h>

#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <numeric>

namespace fs = std::filesystem;
using namespace leafwright;

namespace {

void replace(std::string& text, std::string_view what, const std::string& with) {
  if (const std::size_t at = text.find(what); at != std::string::npos)
    text.replace(at, what.size(), with);
}

double mean(const std::vector<long>& values, std::size_t from, std::size_t to) {
  if (from >= to) return 0;
  return std::accumulate(values.begin() + static_cast<std::ptrdiff_t>(from),
                         values.begin() + static_cast<std::ptrdiff_t>(to), 0.0) /
         static_cast<double>(to - from);
}

} // namespace

int main(int count, char** words) {
  if (count < 2) {
    fmt::print(stderr, "batch_bench PROGRAM [projects] [jobs]\n");
    return 2;
  }
  const int projects = count > 2 ? std::max(std::atoi(words[2]), 1) : 1000;
  const std::string jobs = count > 3 ? words[3] : "0";
  const fs::path work = fs::temp_directory_path() / fmt::format("batch-bench-{}", getpid());
  const fs::path samples = fs::path(LEAFWRIGHT_SOURCE_DIR) / "samples";
  const std::string small = bench::whole_file(samples / "five-minute" / "project.xml");
  const std::string large = bench::whole_file(samples / "orchard-gate" / "project.xml");
  for (int i = 0; i < projects; ++i) {
    const fs::path folder = work / "in" / fmt::format("{:04}", i);
    fs::create_directories(folder);
    std::string text = i % 10 == 9 ? large : small;
    replace(text, "1 1/2 from top", fmt::format("1 {}/64 from top", i % 63 + 1));
    replace(text, " title=\"", fmt::format(" title=\"{} ", i));
    bench::put(folder / "project.xml", text);
    if (i % 10 == 9) fs::copy_file(samples / "orchard-gate" / "roster.csv", folder / "roster.csv");
  }
  setenv("LEAFWRIGHT_DATA", LEAFWRIGHT_SOURCE_DIR, 0);
  const auto begin = std::chrono::steady_clock::now();
  const pid_t child = bench::start({words[1], "batch", (work / "in").string(), "-o",
                                    (work / "out").string(), "--jobs", jobs, "--quiet"});
  std::vector<long> memory;
  long own = 0;
  int status = 0;
  rusage used{}; // of the program and of all workers that it waited for
  while (child > 0 && wait4(child, &status, WNOHANG, &used) == 0) {
    memory.push_back(bench::tree_kb(child));
    if (memory.size() % 8 == 1) own = std::max(own, bench::tree_own_kb(child));
    usleep(250'000);
  }
  const double seconds =
      std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
  const auto in_seconds = [](const timeval& t) {
    return static_cast<double>(t.tv_sec) + static_cast<double>(t.tv_usec) / 1e6;
  };
  const double cpu = in_seconds(used.ru_utime) + in_seconds(used.ru_stime);
  int made = 0;
  fs::create_directories(work / "out"); // even when nothing could be made
  for (const auto& entry : fs::recursive_directory_iterator(work / "out"))
    made += entry.path().extension() == ".pdf" ? 1 : 0;
  fs::remove_all(work);
  const bool good = child > 0 && WIFEXITED(status) && WEXITSTATUS(status) == 0 && made == projects;
  const std::size_t tenth = std::max<std::size_t>(memory.size() / 10, 1);
  constexpr double mb = 1024;
  fmt::print("{} projects: {:.1f} s, {:.1f} s of processor time = {:.2f} cores used; {:.1f} a "
             "second\n",
             made, seconds, cpu, cpu / seconds, made / seconds);
  // The first tenth is left out: workers begin small.
  if (memory.size() > 3 * tenth)
    fmt::print("memory of all processes, MB: second tenth {:.0f}, last tenth {:.0f}, most {:.0f}; "
               "with what they share counted once {:.0f}\n",
               mean(memory, tenth, 2 * tenth) / mb,
               mean(memory, memory.size() - tenth, memory.size()) / mb,
               static_cast<double>(*std::ranges::max_element(memory)) / mb,
               static_cast<double>(own) / mb);
  if (!good) fmt::print("failed\n");
  return good ? 0 : 1;
}
