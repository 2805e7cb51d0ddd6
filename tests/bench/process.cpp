#include "process.h"

#include <fcntl.h>
#include <spawn.h>
#include <unistd.h>

#include <algorithm>
#include <fstream>
#include <iterator>
#include <map>
#include <sstream>

extern char** environ;

namespace leafwright::bench {

namespace fs = std::filesystem;

namespace {

// The fields of /proc/N/stat behind the name, which may hold blanks (proc(5)): the first is the
// state, field 3.
std::vector<std::string> stat_of(const std::string& process) {
  const std::string text = whole_file(fs::path("/proc") / process / "stat");
  const std::size_t end = text.rfind(')');
  if (end == std::string::npos) return {};
  std::istringstream rest(text.substr(end + 1));
  return {std::istream_iterator<std::string>(rest), {}};
}
constexpr std::size_t parent_field = 1, rss_field = 21;

std::vector<std::string> tree_of(pid_t process) {
  std::multimap<std::string, std::string> children;
  std::error_code ignored;
  for (const auto& entry : fs::directory_iterator("/proc", ignored)) {
    const std::string name = entry.path().filename().string();
    if (name.find_first_not_of("0123456789") != std::string::npos) continue;
    if (const auto fields = stat_of(name); fields.size() > rss_field)
      children.emplace(fields[parent_field], name);
  }
  std::vector<std::string> all{std::to_string(process)};
  for (std::size_t i = 0; i < all.size(); ++i)
    for (auto [at, end] = children.equal_range(all[i]); at != end; ++at) all.push_back(at->second);
  return all;
}

} // namespace

std::string whole_file(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

void put(const fs::path& path, const std::string& bytes) {
  std::ofstream(path, std::ios::binary) << bytes;
}

pid_t start(std::vector<std::string> words) {
  std::vector<char*> pointers;
  for (std::string& word : words) pointers.push_back(word.data());
  pointers.push_back(nullptr);
  posix_spawn_file_actions_t quiet;
  posix_spawn_file_actions_init(&quiet);
  for (const int stream : {1, 2})
    posix_spawn_file_actions_addopen(&quiet, stream, "/dev/null", O_WRONLY, 0);
  pid_t child = -1;
  if (posix_spawn(&child, pointers[0], &quiet, nullptr, pointers.data(), environ) != 0) child = -1;
  posix_spawn_file_actions_destroy(&quiet);
  return child;
}

double cpu_ms(pid_t process) {
  std::istringstream text(whole_file(fs::path("/proc") / std::to_string(process) / "schedstat"));
  double nanoseconds = 0;
  text >> nanoseconds;
  return nanoseconds / 1e6;
}

long tree_kb(pid_t process) {
  long pages = 0;
  for (const std::string& one : tree_of(process))
    if (const auto fields = stat_of(one); fields.size() > rss_field)
      pages += std::stol(fields[rss_field]);
  return pages * (sysconf(_SC_PAGESIZE) / 1024);
}

long tree_own_kb(pid_t process) {
  long kb = 0;
  for (const std::string& one : tree_of(process)) {
    std::istringstream lines(whole_file(fs::path("/proc") / one / "smaps_rollup"));
    for (std::string line; std::getline(lines, line);)
      if (line.starts_with("Pss:")) kb += std::stol(line.substr(4));
  }
  return kb;
}

double share_of(std::vector<double> values, double share) {
  if (values.empty()) return 0;
  std::ranges::sort(values);
  const auto index = static_cast<std::size_t>(share * static_cast<double>(values.size()));
  return values[std::min(index, values.size() - 1)];
}

double median(std::vector<double> values) { return share_of(std::move(values), 0.5); }

} // namespace leafwright::bench
