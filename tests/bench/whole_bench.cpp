// The whole program as a user starts it: time, memory and pages of each sample, and of generated
// projects of 4, 10, 20 and 40 cards, which show how it grows; then what start, check and money
// take of processor time where the tutorial takes 100. Usage: whole_bench PROGRAM [rounds]
// The figures of one run are to be compared with each other, not with those of another machine.

#include "process.h"

#include <fmt/format.h>

#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

namespace {

namespace fs = std::filesystem;
namespace bench = leafwright::bench;

struct Run {
  double wall_ms = 0, cpu_ms = 0;
  long peak_kb = 0;
  bool good = false;
};

Run run(std::vector<std::string> words) {
  const auto begin = std::chrono::steady_clock::now();
  const pid_t child = bench::start(std::move(words));
  Run result;
  if (child < 0) return result;
  int status = 0;
  rusage used{};
  wait4(child, &status, 0, &used);
  result.wall_ms =
      std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - begin).count();
  const auto ms = [](const timeval& t) {
    return static_cast<double>(t.tv_sec) * 1e3 + static_cast<double>(t.tv_usec) / 1e3;
  };
  result.cpu_ms = ms(used.ru_utime) + ms(used.ru_stime);
  result.peak_kb = used.ru_maxrss;
  result.good = WIFEXITED(status) && WEXITSTATUS(status) == 0;
  return result;
}

// The main sample's cards over and over, each with a name of its own.
std::string of_cards(const std::string& sample, int cards) {
  const std::string open = "<card id=\"", close = "</card>";
  const std::size_t first = sample.find(open), end = sample.rfind(close) + close.size();
  std::vector<std::string> kinds;
  for (std::size_t at = first; at < end; at = sample.find(open, at + 1)) {
    if (at == std::string::npos) break;
    kinds.push_back(sample.substr(at, sample.find(close, at) + close.size() - at));
  }
  std::string out = sample.substr(0, first);
  for (int i = 0; i < cards; ++i) {
    std::string card = kinds[static_cast<std::size_t>(i) % kinds.size()];
    // The first ones keep their names: the class day speaks of them.
    if (static_cast<std::size_t>(i) >= kinds.size())
      card.insert(open.size(), fmt::format("n{}-", i));
    out += card + "\n";
  }
  return out + sample.substr(end);
}

int pages_of(const fs::path& folder) {
  for (const auto& entry : fs::directory_iterator(folder)) {
    if (entry.path().extension() != ".pdf") continue;
    const std::string command = "pdfinfo '" + entry.path().string() + "' | sed -n 's/^Pages: *//p'";
    FILE* pipe = popen(command.c_str(), "r"); // NOLINT(cert-env33-c): a fixed command
    int pages = 0;
    if (pipe == nullptr || std::fscanf(pipe, "%d", &pages) != 1) pages = 0;
    if (pipe != nullptr) pclose(pipe);
    return pages;
  }
  return 0;
}

// Round by round one of each, so that whatever else the machine does falls on all of them.
bool tell_ratios(const std::string& program, const std::string& name, const std::string& project,
                 const std::string& out, int rounds) {
  const std::vector<std::vector<std::string>> verbs = {
      {program, "tutorial", project, "-o", out, "--quiet"},
      {program, "--version"},
      {program, "check", project, "--quiet"},
      {program, "money", project, "-o", out, "--quiet"}};
  std::vector<std::vector<double>> times(verbs.size());
  bool good = true;
  for (int round = 0; round < rounds; ++round)
    for (std::size_t i = 0; i < verbs.size(); ++i) {
      const Run one = run(verbs[i]);
      good = good && one.good;
      times[i].push_back(one.cpu_ms);
    }
  const double tutorial = bench::median(times[0]);
  fmt::print("{:<14}", name);
  for (std::size_t i = 1; i < verbs.size(); ++i)
    fmt::print("{:>11.1f}", bench::median(times[i]) / tutorial * 100);
  fmt::print("{}\n", good ? "" : "  failed");
  return good;
}

} // namespace

int main(int count, char** arguments) {
  if (count < 2) {
    fmt::print("usage: whole_bench PROGRAM [rounds]\n");
    return 2;
  }
  const std::string program = arguments[1];
  const int rounds = count > 2 ? std::max(1, std::atoi(arguments[2])) : 9;
  const fs::path source = LEAFWRIGHT_SOURCE_DIR;
  setenv("LEAFWRIGHT_DATA", source.c_str(), 1);
  const fs::path work = fs::temp_directory_path() / fmt::format("leafwright-bench-{}", getpid());
  fs::create_directories(work);
  std::vector<std::pair<std::string, fs::path>> jobs;
  for (const char* name : {"orchard-gate", "kelp-lantern", "five-minute"})
    jobs.emplace_back(name, source / "samples" / name / "project.xml");
  const std::string sample = bench::whole_file(source / "samples/orchard-gate/project.xml");
  for (const int cards : {4, 10, 20, 40}) {
    const fs::path folder = work / fmt::format("cards-{}", cards);
    fs::create_directories(folder);
    std::ofstream(folder / "project.xml", std::ios::binary) << of_cards(sample, cards);
    fs::copy_file(source / "samples/orchard-gate/roster.csv", folder / "roster.csv");
    jobs.emplace_back(fmt::format("{} cards", cards), folder / "project.xml");
  }
  fmt::print("{:<14}{:>7}{:>10}{:>10}{:>9}{:>10}{:>10}\n", "project", "pages", "wall ms", "cpu ms",
             "MB", "pages/s", "ms/page");
  bool good = true;
  for (const auto& [name, project] : jobs) {
    const fs::path out = work / "out";
    fs::remove_all(out);
    fs::create_directories(out);
    std::vector<Run> runs;
    for (int round = 0; round < rounds; ++round)
      runs.push_back(run({program, "tutorial", project.string(), "-o", out.string(), "--quiet"}));
    std::ranges::sort(runs, {}, &Run::wall_ms);
    const Run& middle = runs[runs.size() / 2];
    const int pages = pages_of(out);
    good = good && middle.good && pages > 0;
    fmt::print("{:<14}{:>7}{:>10.0f}{:>10.0f}{:>9.0f}{:>10.0f}{:>10.2f}{}\n", name, pages,
               middle.wall_ms, middle.cpu_ms, static_cast<double>(middle.peak_kb) / 1024,
               pages / middle.wall_ms * 1e3, middle.wall_ms / std::max(pages, 1),
               middle.good ? "" : "  failed");
  }
  fmt::print("\n{:<14}{:>11}{:>11}{:>11}   of processor time, tutorial = 100\n", "project",
             "--version", "check", "money");
  for (std::size_t i = 0; i < 3; ++i) // the samples
    good = tell_ratios(program, jobs[i].first, jobs[i].second.string(), (work / "out").string(),
                       rounds) &&
           good;
  fs::remove_all(work);
  return good ? 0 : 1;
}
