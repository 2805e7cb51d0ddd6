// Random changes to the main sample, many more than the tests try: after each, the tutorial made
// again must be, byte for byte, the one made from scratch. Usage: regeneration_bench [rounds]
// Tells how many times less work making again is, too.

#include "app/documents/documents.h"
#include "app/documents/session.h"
#include "app/system/environment.h"
#include "random_change.h"
#include "read/edit/edit.h"

#include <fmt/format.h>

#include <unistd.h>

#include <algorithm>
#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>

namespace fs = std::filesystem;
using namespace leafwright;
using namespace leafwright::app;

namespace {

std::string bytes_of(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

// Processor time of this program, all threads: other work on the machine does not count.
double cpu_ms() {
  timespec now{};
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
  return static_cast<double>(now.tv_sec) * 1e3 + static_cast<double>(now.tv_nsec) / 1e6;
}

RenderSettings open_one(const Arguments& arguments) {
  Environment environment{std::cout, std::cerr};
  environment.data = LEAFWRIGHT_SOURCE_DIR;
  auto opened = open_settings(arguments, environment);
  if (!std::holds_alternative<RenderSettings>(opened)) std::exit(1);
  return std::get<RenderSettings>(std::move(opened));
}

} // namespace

int main(int count, char** words) {
  const int rounds = count > 1 ? std::max(std::atoi(words[1]), 1) : 200;
  const fs::path work = fs::temp_directory_path() / fmt::format("regeneration-{}", getpid());
  const fs::path sample = fs::path(LEAFWRIGHT_SOURCE_DIR) / "samples/orchard-gate";
  fs::create_directories(work);
  fs::copy_file(sample / "roster.csv", work / "roster.csv");
  const std::string original = bytes_of(sample / "project.xml");
  const fs::path project = work / "project.xml";
  std::string text = original;
  const Arguments arguments;
  RenderSettings settings = open_one(arguments);
  DocumentCache cache;
  settings.cache = &cache;
  std::mt19937 random(23); // NOLINT(*-msc51-cpp): the same changes each time
  double again_ms = 0, scratch_ms = 0;
  int made = 0, differ = 0;
  for (int round = 0; round < rounds; ++round) {
    if (round % 20 == 19) text = original; // back to the beginning now and then
    const std::vector<std::string> change = test::random_change(random);
    const edit::Editing editing = edit::set_values(text, project.string(), change);
    if (!editing.ok()) continue;
    text = edit::applied(text, editing.edits);
    std::ofstream(project, std::ios::binary) << text;
    const double begin = cpu_ms();
    cache.next_round();
    const RenderedProject again =
        render_project(project.string(), {"tutorial"}, settings, arguments);
    const double middle = cpu_ms();
    const RenderSettings fresh = open_one(arguments);
    const RenderedProject scratch =
        render_project(project.string(), {"tutorial"}, fresh, arguments);
    if (round > 0) {
      again_ms += middle - begin;
      scratch_ms += cpu_ms() - middle;
    }
    ++made;
    const bool same =
        again.files.size() == scratch.files.size() &&
        std::ranges::equal(again.files, scratch.files, [](const auto& a, const auto& b) {
          return a.name == b.name && a.bytes == b.bytes;
        });
    if (same) continue;
    ++differ;
    for (const std::string& one : change) fmt::print("{} ", one);
    fmt::print("\n");
  }
  fs::remove_all(work);
  fmt::print("{} changes, {} differ; again {:.1f} ms of processor time, from scratch {:.1f} ms\n",
             made, differ, again_ms / std::max(made - 1, 1), scratch_ms / std::max(made - 1, 1));
  return differ == 0 ? 0 : 1;
}
